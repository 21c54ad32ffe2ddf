<?xml version="1.0" encoding="UTF-8"?>
<!-- Findings: filed by place, then by rule. What is the same for a rule is said
     once above its table; each subject then has one row from which its score can
     be redone. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">

  <xsl:template name="findings-of">
    <xsl:param name="set"/>
    <xsl:param name="id"/>
    <section aria-labelledby="{$id}" class="findings {$id}">
      <xsl:call-template name="section-head"><xsl:with-param name="id" select="$id"/></xsl:call-template>
      <xsl:choose>
        <xsl:when test="$set">
          <p class="legend"><xsl:value-of select="$w[@id = 'legend']"/></p>
          <xsl:for-each select="schedule/day/task">
            <xsl:call-template name="place">
              <xsl:with-param name="key" select="concat('task ', @path)"/>
              <xsl:with-param name="set" select="$set"/><xsl:with-param name="id" select="$id"/>
              <xsl:with-param name="head" select="@title"/>
              <xsl:with-param name="under">
                <xsl:value-of select="../@words"/><xsl:if test="not(../@words)"><xsl:value-of select="../@date"/></xsl:if>
                <xsl:if test="@start">, <xsl:value-of select="concat(@start, '–', @finish)"/></xsl:if>
              </xsl:with-param>
            </xsl:call-template>
          </xsl:for-each>
          <xsl:for-each select="$all[@site][count(. | key('site', @site)[1]) = 1]">
            <xsl:call-template name="place">
              <xsl:with-param name="key" select="concat('site ', @site)"/>
              <xsl:with-param name="set" select="$set"/><xsl:with-param name="id" select="$id"/>
              <xsl:with-param name="head">
                <xsl:call-template name="site-label"><xsl:with-param name="site" select="@site"/></xsl:call-template>
              </xsl:with-param>
              <xsl:with-param name="under" select="$w[@id = 'group-site']"/>
            </xsl:call-template>
          </xsl:for-each>
          <xsl:call-template name="place">
            <xsl:with-param name="key" select="'days'"/><xsl:with-param name="set" select="$set"/>
            <xsl:with-param name="id" select="$id"/><xsl:with-param name="head" select="$w[@id = 'group-day']"/>
          </xsl:call-template>
          <xsl:call-template name="place">
            <xsl:with-param name="key" select="'people'"/><xsl:with-param name="set" select="$set"/>
            <xsl:with-param name="id" select="$id"/><xsl:with-param name="head" select="$w[@id = 'group-people']"/>
          </xsl:call-template>
          <xsl:call-template name="place">
            <xsl:with-param name="key" select="'production'"/><xsl:with-param name="set" select="$set"/>
            <xsl:with-param name="id" select="$id"/><xsl:with-param name="head" select="$w[@id = 'group-production']"/>
          </xsl:call-template>
        </xsl:when>
        <xsl:otherwise><xsl:call-template name="nothing"/></xsl:otherwise>
      </xsl:choose>
    </section>
  </xsl:template>

  <xsl:template name="site-label">
    <xsl:param name="site"/>
    <xsl:choose>
      <xsl:when test="key('subject', $site)/@label"><xsl:value-of select="key('subject', $site)/@label"/></xsl:when>
      <xsl:when test="$root/schedule/day[@site = $site]/@site-label"><xsl:value-of select="$root/schedule/day[@site = $site]/@site-label"/></xsl:when>
      <xsl:otherwise><xsl:value-of select="$site"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <!-- One place of one section: its findings of this set, rule by rule. -->
  <xsl:template name="place">
    <xsl:param name="key"/>
    <xsl:param name="set"/>
    <xsl:param name="id"/>
    <xsl:param name="head"/>
    <xsl:param name="under"/>
    <xsl:variable name="here" select="key('place', $key)[count(. | $set) = count($set)]"/>
    <xsl:if test="$here">
      <h3 id="{$id}-{translate($key, ' /', '--')}"><xsl:value-of select="$head"/>
        <span class="under"><xsl:value-of select="$under"/><xsl:if test="string($under) != ''"> · </xsl:if>
          <xsl:call-template name="count"><xsl:with-param name="id" select="'n-findings'"/><xsl:with-param name="n" select="count($here)"/></xsl:call-template></span></h3>
      <xsl:choose>
        <xsl:when test="$id = 'below' or $id = 'notes'">
          <xsl:call-template name="finding-table"><xsl:with-param name="rows" select="$here"/><xsl:with-param name="short" select="true()"/><xsl:with-param name="label" select="$head"/></xsl:call-template>
        </xsl:when>
        <xsl:otherwise>
          <xsl:for-each select="$here">
            <xsl:variable name="rule" select="@rule"/>
            <xsl:variable name="same" select="$here[@rule = $rule]"/>
            <xsl:if test="count(. | $same[1]) = 1">
              <xsl:call-template name="rule-block"><xsl:with-param name="same" select="$same"/></xsl:call-template>
            </xsl:if>
          </xsl:for-each>
        </xsl:otherwise>
      </xsl:choose>
    </xsl:if>
  </xsl:template>

  <!-- A rule at one place: what is the same for all its findings, then a row for each. -->
  <xsl:template name="rule-block">
    <xsl:param name="same"/>
    <div class="rule-block">
      <xsl:if test="count($same) = 1"><xsl:attribute name="class">rule-block one</xsl:attribute></xsl:if>
      <h4><xsl:value-of select="@title"/></h4>
      <p class="meta">
        <xsl:if test="@harm"><span class="part"><span class="label"><xsl:value-of select="$w[@id = 'harm']"/></span><xsl:value-of select="@harm"/></span><xsl:text> </xsl:text></xsl:if>
        <span class="part"><span class="label"><xsl:value-of select="$w[@id = 'rule']"/></span>
          <a href="#rule-{@rule}"><xsl:value-of select="@rule"/></a>
          <span class="path"><xsl:value-of select="concat(' ', @pack, '/', @file, ':', @line)"/></span></span>
        <xsl:if test="source"><xsl:text> </xsl:text><span class="part"><span class="label"><xsl:value-of select="$w[@id = 'sources']"/></span>
          <xsl:for-each select="source"><xsl:if test="position() &gt; 1">; </xsl:if><xsl:value-of select="."/></xsl:for-each></span></xsl:if>
      </p>
      <xsl:if test="@reasoning"><p class="meta"><span class="label"><xsl:value-of select="$w[@id = 'reasoning']"/></span><xsl:value-of select="@reasoning"/></p></xsl:if>
      <xsl:if test="$same/function">
        <ul class="functions">
          <xsl:for-each select="$same/function[count(. | key('by-function', @name)[count(.. | $same) = count($same)][1]) = 1]">
            <li><a href="#function-{@name}"><xsl:value-of select="translate(@name, '_', ' ')"/></a>: <xsl:value-of select="@formula"/>
              <xsl:if test="@source"><span class="quiet"> (<xsl:value-of select="@source"/><xsl:if test="@limits">; <xsl:value-of select="@limits"/></xsl:if>)</span></xsl:if></li>
          </xsl:for-each>
        </ul>
      </xsl:if>
      <xsl:call-template name="finding-table"><xsl:with-param name="rows" select="$same"/><xsl:with-param name="label" select="@title"/></xsl:call-template>
    </div>
  </xsl:template>

  <xsl:template name="finding-table">
    <xsl:param name="rows"/>
    <xsl:param name="short" select="false()"/>
    <xsl:param name="label"/>
    <div class="keep">
    <table class="rows">
      <caption class="away"><xsl:value-of select="$label"/></caption>
      <thead><tr>
        <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'finding'"/><xsl:with-param name="class" select="'c1'"/></xsl:call-template>
        <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'why'"/><xsl:with-param name="class" select="'c2'"/></xsl:call-template>
        <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'rests'"/><xsl:with-param name="class" select="'c3'"/></xsl:call-template>
        <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'as-described'"/><xsl:with-param name="class" select="'b'"/></xsl:call-template>
        <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'as-in-place'"/><xsl:with-param name="class" select="'b'"/></xsl:call-template>
        <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'as-planned'"/><xsl:with-param name="class" select="'b'"/></xsl:call-template>
      </tr></thead>
      <tbody>
        <xsl:for-each select="$rows">
          <tr id="{@id}">
            <th scope="row" class="c1">
              <span class="id"><xsl:value-of select="@id"/></span>
              <xsl:if test="$short"><xsl:text> </xsl:text><a href="#rule-{@rule}"><xsl:value-of select="@title"/></a></xsl:if>
              <span class="of">
                <xsl:variable name="at" select="key('task', @task)/immersion[@path = current()/@subject]"/>
                <xsl:choose>
                  <xsl:when test="@task and @subject = @task"><xsl:value-of select="$w[@id = 'whole-task']"/></xsl:when>
                  <xsl:when test="$at/@person-label"><xsl:value-of select="$at/@person-label"/></xsl:when>
                  <xsl:when test="@subject-label"><xsl:value-of select="@subject-label"/></xsl:when>
                  <xsl:otherwise><xsl:value-of select="@subject"/></xsl:otherwise>
                </xsl:choose>
                <xsl:if test="@about"><xsl:value-of select="concat(', ', $w[@id = 'about'], ' ', @about)"/></xsl:if>
              </span>
              <xsl:if test="@who or ($short and @harm)">
                <span class="of who"><xsl:if test="$short and @harm"><xsl:value-of select="@harm"/><xsl:if test="@who"> · </xsl:if></xsl:if><xsl:value-of select="@who"/></span>
              </xsl:if>
            </th>
            <td class="c2"><xsl:apply-templates select="." mode="why"/></td>
            <td class="c3"><xsl:apply-templates select="." mode="rests"/></td>
            <td class="b"><xsl:apply-templates select="score[@as = 'described']"/></td>
            <td class="b"><xsl:apply-templates select="score[@as = 'in-place']"/></td>
            <td class="b"><xsl:apply-templates select="score[@as = 'planned']"/></td>
          </tr>
        </xsl:for-each>
      </tbody>
    </table>
    </div>
  </xsl:template>

  <!-- ===== why ===== -->

  <xsl:template match="finding" mode="why">
    <xsl:for-each select="because">
      <p class="because">
        <xsl:if test="@case = 'best'"><span class="label"><xsl:value-of select="$w[@id = 'at-best']"/></span></xsl:if>
        <xsl:value-of select="."/>
      </p>
    </xsl:for-each>
    <xsl:apply-templates select="value"/>
    <xsl:call-template name="conditions"><xsl:with-param name="case" select="'worst'"/></xsl:call-template>
    <xsl:call-template name="conditions"><xsl:with-param name="case" select="'best'"/></xsl:call-template>
    <xsl:if test="floored"><p class="aside"><xsl:value-of select="$w[@id = 'floored']"/></p></xsl:if>
    <xsl:if test="@unresolved = 'yes'"><p class="aside"><b><xsl:value-of select="$w[@id = 'unresolved']"/></b></p></xsl:if>
    <xsl:if test="@waived-by">
      <p class="aside"><b><xsl:value-of select="$w[@id = 'waived']"/><xsl:text> </xsl:text><xsl:value-of select="@waived-by"/></b>
        <xsl:if test="@waived-until"><xsl:value-of select="concat(', ', $w[@id = 'until'], ' ', @waived-until)"/></xsl:if>
        <xsl:if test="@waived-because"><xsl:value-of select="concat(': ', @waived-because)"/></xsl:if></p>
    </xsl:if>
    <xsl:if test="control"><ul class="with"><xsl:apply-templates select="control" mode="line"/></ul></xsl:if>
  </xsl:template>

  <xsl:template match="value">
    <p class="working">
      <xsl:value-of select="@title"/><xsl:if test="not(@title)"><xsl:value-of select="@name"/></xsl:if>
      <xsl:if test="@names"><xsl:text> = </xsl:text><xsl:value-of select="@names"/></xsl:if>
      <xsl:text> = </xsl:text>
      <xsl:choose>
        <xsl:when test="not(@working)"><b><xsl:value-of select="@text"/></b></xsl:when>
        <xsl:when test="substring(@working, string-length(@working) - string-length(@text) + 1) = @text">
          <xsl:value-of select="substring(@working, 1, string-length(@working) - string-length(@text))"/>
          <b><xsl:value-of select="@text"/></b>
        </xsl:when>
        <xsl:otherwise><xsl:value-of select="@working"/> = <b><xsl:value-of select="@text"/></b></xsl:otherwise>
      </xsl:choose>
    </p>
  </xsl:template>

  <xsl:template name="conditions">
    <xsl:param name="case"/>
    <xsl:variable name="these" select="condition[@case = $case or (not(@case) and $case = 'worst')]"/>
    <xsl:if test="$these">
      <p class="aside"><span class="label"><xsl:value-of select="$w[@id = concat($case, '-when')]"/></span>
        <xsl:for-each select="$these">
          <xsl:if test="position() &gt; 1">; </xsl:if><xsl:value-of select="@text"/>
          <xsl:if test="@settled = 'no'"><xsl:text> </xsl:text><span class="mark unknown"><xsl:value-of select="$w[@id = 'mark-unsettled']"/></span></xsl:if>
        </xsl:for-each>
      </p>
    </xsl:if>
  </xsl:template>

  <xsl:template match="control" mode="line">
    <li class="{@state}">
      <span class="tick" aria-hidden="true"/>
      <a href="#control-{@ref}"><xsl:value-of select="@title"/><xsl:if test="not(@title)"><xsl:value-of select="@ref"/></xsl:if></a>
      <span class="quiet">
        <xsl:text> (</xsl:text><xsl:if test="@kind"><xsl:value-of select="concat($w[@id = concat('kind-', current()/@kind)], ', ')"/></xsl:if>
        <b><xsl:value-of select="$w[@id = concat('c-', current()/@state)]"/></b>
        <xsl:if test="@credited"><xsl:value-of select="concat('; ', @credited)"/></xsl:if>
        <xsl:if test="@changes"><xsl:value-of select="concat('; ', @changes)"/></xsl:if>
        <xsl:text>)</xsl:text>
      </span>
    </li>
  </xsl:template>

  <!-- ===== facts ===== -->

  <xsl:template match="finding | duty" mode="rests">
    <xsl:if test="rests"><ul class="rests"><xsl:apply-templates select="rests"/></ul></xsl:if>
  </xsl:template>

  <xsl:template match="rests">
    <li>
      <xsl:value-of select="@title"/><xsl:text> </xsl:text>
      <xsl:if test="not(starts-with(@path, concat(../@subject, '/')))">
        <xsl:variable name="of" select="key('fact', @path)/.."/>
        <span class="quiet">
          <xsl:choose>
            <xsl:when test="$of/@path = ../@task"><xsl:value-of select="concat('(', $w[@id = 'of-task'], ') ')"/></xsl:when>
            <xsl:when test="$of"><xsl:value-of select="concat('(', $of/@label, ') ')"/></xsl:when>
          </xsl:choose>
        </span>
      </xsl:if>
      <b><xsl:value-of select="@text"/></b>
      <xsl:call-template name="marks"><xsl:with-param name="fact" select="key('fact', @path)"/></xsl:call-template>
    </li>
  </xsl:template>

  <xsl:template name="marks">
    <xsl:param name="fact"/>
    <xsl:choose>
      <xsl:when test="@state = 'unknown' or @assumed = 'yes'"><xsl:text> </xsl:text><span class="mark unknown"><xsl:value-of select="$w[@id = 'mark-unknown']"/></span></xsl:when>
      <xsl:when test="@state = 'derived'"><xsl:text> </xsl:text><span class="mark"><xsl:value-of select="$w[@id = 'mark-derived']"/></span></xsl:when>
      <xsl:when test="@state = 'set'"><xsl:text> </xsl:text><span class="mark"><xsl:value-of select="$w[@id = 'mark-set']"/></span></xsl:when>
    </xsl:choose>
    <xsl:if test="$fact/evidence"><xsl:text> </xsl:text><span class="mark"><xsl:value-of select="$w[@id = 'mark-evidence']"/></span></xsl:if>
  </xsl:template>
</xsl:stylesheet>
