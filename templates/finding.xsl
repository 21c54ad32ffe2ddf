<?xml version="1.0" encoding="UTF-8"?>
<!-- Findings: filed by place, then by rule; below the line by rule alone. What is
     the same for a rule, and what all its rows share, is said once above the
     table; each subject then has one row from which its score can be redone. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">

  <xsl:template name="findings-of">
    <xsl:param name="set"/>
    <xsl:param name="id"/>
    <section aria-labelledby="{$id}" class="findings {$id}">
      <xsl:call-template name="section-head"><xsl:with-param name="id" select="$id"/></xsl:call-template>
      <xsl:choose>
        <xsl:when test="$set">
          <p class="legend"><xsl:value-of select="$w[@id = 'legend']"/></p>
          <xsl:choose>
            <xsl:when test="$id = 'below'">
              <xsl:for-each select="$set[count(. | key('in', concat('below ', @rule))[1]) = 1]">
                <xsl:call-template name="rule-block">
                  <xsl:with-param name="same" select="key('in', concat('below ', @rule))"/><xsl:with-param name="short" select="true()"/>
                </xsl:call-template>
              </xsl:for-each>
            </xsl:when>
            <xsl:otherwise>
              <xsl:call-template name="places"><xsl:with-param name="id" select="$id"/></xsl:call-template>
            </xsl:otherwise>
          </xsl:choose>
        </xsl:when>
        <xsl:otherwise><xsl:call-template name="nothing"/></xsl:otherwise>
      </xsl:choose>
    </section>
  </xsl:template>

  <!-- Place after place: each task, each site, days, people, the production. -->
  <xsl:template name="places">
    <xsl:param name="id"/>
    <xsl:for-each select="$root/schedule/day/task">
      <xsl:call-template name="place">
        <xsl:with-param name="key" select="concat('task ', @path)"/>
        <xsl:with-param name="id" select="$id"/>
        <xsl:with-param name="head" select="@title"/>
        <xsl:with-param name="under">
          <xsl:value-of select="../@words"/><xsl:if test="not(../@words)"><xsl:value-of select="../@date"/></xsl:if>
          <xsl:if test="@start">, <xsl:value-of select="concat(@start, '–', @finish)"/></xsl:if>
        </xsl:with-param>
      </xsl:call-template>
    </xsl:for-each>
    <xsl:for-each select="$all[not(@task)][@site][count(. | key('place', concat('site ', @site))[1]) = 1]">
      <xsl:call-template name="place">
        <xsl:with-param name="key" select="concat('site ', @site)"/>
        <xsl:with-param name="id" select="$id"/>
        <xsl:with-param name="head">
          <xsl:call-template name="site-label"><xsl:with-param name="site" select="@site"/></xsl:call-template>
        </xsl:with-param>
        <xsl:with-param name="under" select="$w[@id = 'group-site']"/>
      </xsl:call-template>
    </xsl:for-each>
    <xsl:call-template name="place">
      <xsl:with-param name="key" select="'days'"/>
      <xsl:with-param name="id" select="$id"/><xsl:with-param name="head" select="$w[@id = 'group-day']"/>
    </xsl:call-template>
    <xsl:call-template name="place">
      <xsl:with-param name="key" select="'people'"/>
      <xsl:with-param name="id" select="$id"/><xsl:with-param name="head" select="$w[@id = 'group-people']"/>
    </xsl:call-template>
    <xsl:call-template name="place">
      <xsl:with-param name="key" select="'production'"/>
      <xsl:with-param name="id" select="$id"/><xsl:with-param name="head" select="$w[@id = 'group-production']"/>
    </xsl:call-template>
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
    <xsl:param name="id"/>
    <xsl:param name="head"/>
    <xsl:param name="under"/>
    <xsl:variable name="here" select="key('place', $key)[$id = 'stops' and @word = 'stop' or $id = 'notes' and @word = 'note'
      or $id = 'above' and @word = 'hazard' and score[@as = 'in-place']/@worst-band = $above]"/>
    <xsl:if test="$here">
      <h3 id="{$id}-{translate($key, ' /', '--')}"><xsl:value-of select="$head"/>
        <span class="under"><xsl:value-of select="$under"/><xsl:if test="string($under) != ''"> · </xsl:if>
          <xsl:call-template name="count"><xsl:with-param name="id" select="'n-findings'"/><xsl:with-param name="n" select="count($here)"/></xsl:call-template></span></h3>
      <xsl:for-each select="$here">
        <xsl:variable name="same" select="$here[@rule = current()/@rule]"/>
        <xsl:if test="count(. | $same[1]) = 1">
          <xsl:call-template name="rule-block">
            <xsl:with-param name="same" select="$same"/>
            <xsl:with-param name="home" select="key('in', concat($id, ' ', @rule))[1]"/>
          </xsl:call-template>
        </xsl:if>
      </xsl:for-each>
    </xsl:if>
  </xsl:template>

  <!-- A rule: what is the same for all its findings here, then a row for each. -->
  <xsl:template name="rule-block">
    <xsl:param name="same"/>
    <xsl:param name="home" select="$same[1]"/>
    <xsl:param name="short" select="false()"/>
    <xsl:variable name="shared"><xsl:if test="count($same) &gt; 1"><xsl:call-template name="shared"><xsl:with-param name="same" select="$same"/></xsl:call-template></xsl:if></xsl:variable>
    <div class="rule-block">
      <div class="block-top">
      <xsl:choose>
        <xsl:when test="$short"><h3><xsl:value-of select="@title"/></h3></xsl:when>
        <xsl:otherwise><h4><xsl:value-of select="@title"/></h4></xsl:otherwise>
      </xsl:choose>
      <p class="meta">
        <xsl:if test="@harm"><span class="bit"><span class="label"><xsl:value-of select="$w[@id = 'harm']"/></span><xsl:value-of select="@harm"/></span><xsl:text> </xsl:text></xsl:if>
        <span class="bit"><span class="label"><xsl:value-of select="$w[@id = 'rule']"/></span>
          <a href="#rule-{@rule}"><xsl:value-of select="@rule"/></a>
          <span class="path"><xsl:value-of select="concat(' ', @pack, '/', @file, ':', @line)"/></span></span>
        <xsl:if test="count($same | $home) != count($same)">
          <xsl:text> </xsl:text><span class="bit"><xsl:value-of select="$w[@id = 'sources-at']"/><xsl:text> </xsl:text><a class="page" href="#{$home/@id}"><xsl:value-of select="$home/@id"/></a></span>
        </xsl:if>
      </p><xsl:text> </xsl:text>
      <xsl:if test="count($same | $home) = count($same)"><xsl:call-template name="block-head"><xsl:with-param name="same" select="$same"/><xsl:with-param name="short" select="$short"/></xsl:call-template></xsl:if>
      <xsl:if test="$shared != ''"><xsl:call-template name="block-common"><xsl:with-param name="shared" select="$shared"/><xsl:with-param name="short" select="$short"/></xsl:call-template></xsl:if>
      </div>
      <xsl:choose>
        <xsl:when test="$short">
          <xsl:call-template name="finding-table"><xsl:with-param name="rows" select="$same"/><xsl:with-param name="shared" select="$shared"/><xsl:with-param name="label" select="@title"/></xsl:call-template>
        </xsl:when>
        <xsl:otherwise>
          <xsl:apply-templates select="$same" mode="full"><xsl:with-param name="shared" select="$shared"/></xsl:apply-templates>
        </xsl:otherwise>
      </xsl:choose>
    </div>
  </xsl:template>

  <!-- ===== one finding in full: its scores side by side, then why, in two columns ===== -->

  <xsl:template match="finding" mode="full">
    <xsl:param name="shared"/>
    <article class="full" id="{@id}" aria-label="{@id}">
      <xsl:call-template name="aid-marks"/>
      <div class="full-head">
        <p class="full-who">
          <span class="id"><xsl:value-of select="@id"/></span><xsl:text> </xsl:text>
          <b><xsl:call-template name="subject-of"/></b>
          <xsl:if test="@about"><xsl:value-of select="concat(', ', $w[@id = 'about'], ' ', @about)"/></xsl:if>
          <xsl:if test="@who"><span class="of"><xsl:value-of select="@who"/></span></xsl:if>
        </p><xsl:text> </xsl:text>
        <dl class="scores">
          <xsl:variable name="first" select="score[1]"/>
          <xsl:variable name="same-score" select="score[@worst = $first/@worst][@worst-likelihood = $first/@worst-likelihood][string(@best) = string($first/@best)][string(@best-likelihood) = string($first/@best-likelihood)] | score[@state = $first/@state]"/>
          <xsl:if test="count($same-score) = 3">
            <div><dt><xsl:value-of select="$w[@id = 'as-all']"/></dt><dd><xsl:apply-templates select="$first"/></dd></div>
          </xsl:if>
          <xsl:for-each select="score[count($same-score) != 3]">
            <div><dt><xsl:value-of select="$w[@id = concat('as-', current()/@as)]"/></dt><dd><xsl:apply-templates select="."/></dd></div>
          </xsl:for-each>
        </dl>
      </div>
      <div class="full-why">
        <div><xsl:apply-templates select="." mode="why"><xsl:with-param name="shared" select="$shared"/></xsl:apply-templates></div>
        <xsl:if test="margin or way"><div><xsl:call-template name="margins"/><xsl:call-template name="ways"/></div></xsl:if>
      </div>
    </article>
  </xsl:template>

  <!-- What is the same for every finding of the rule: said once in each section. -->
  <xsl:template name="block-head">
    <xsl:param name="same"/>
    <xsl:param name="short"/>
    <xsl:if test="@reasoning"><p class="meta"><span class="label"><xsl:value-of select="$w[@id = 'reasoning']"/></span><xsl:value-of select="@reasoning"/></p><xsl:text> </xsl:text></xsl:if>
    <xsl:if test="source">
      <p class="meta"><span class="label"><xsl:value-of select="$w[@id = 'sources']"/></span>
        <xsl:for-each select="source"><xsl:if test="position() &gt; 1">; </xsl:if><xsl:value-of select="."/></xsl:for-each></p><xsl:text> </xsl:text>
    </xsl:if>
    <xsl:call-template name="block-formulas"><xsl:with-param name="same" select="$same"/></xsl:call-template>
    <xsl:for-each select="/assessment/amendments/amendment[@rule = current()/@rule]">
      <p class="meta"><span class="label"><xsl:value-of select="$w[@id = 'stricter']"/></span><xsl:apply-templates select="." mode="said"/></p><xsl:text> </xsl:text>
    </xsl:for-each>
    <xsl:call-template name="block-functions"><xsl:with-param name="same" select="$same"/><xsl:with-param name="short" select="$short"/></xsl:call-template>
    <!-- What brings a finding below the line stands with it. -->
    <xsl:if test="not($short or $same/way[@kind != 'move'])"><xsl:call-template name="block-options"><xsl:with-param name="same" select="$same"/></xsl:call-template></xsl:if>
  </xsl:template>

  <!-- How the rule's values are made, in names: said here once. A row has its numbers, and its own
       names only where they differ from these. -->
  <xsl:key name="formulas" match="finding/value[@names]" use="concat(../@rule, ' ', @name)"/>

  <xsl:template name="block-formulas">
    <xsl:param name="same"/>
    <xsl:variable name="all" select="value[@names] | $same/value[@names][not(@name = current()/value[@names]/@name)]"/>
    <xsl:if test="$all">
      <p class="meta"><span class="label"><xsl:value-of select="$w[@id = 'formulas']"/></span>
        <xsl:for-each select="$all">
          <xsl:if test="count(. | $all[@name = current()/@name][1]) = 1">
            <xsl:if test="count(. | $all[1]) &gt; 1">; </xsl:if>
            <b><xsl:value-of select="@title"/></b><xsl:value-of select="concat(' = ', key('formulas', concat(../@rule, ' ', @name))[1]/@names)"/>
          </xsl:if>
        </xsl:for-each>
      </p><xsl:text> </xsl:text>
    </xsl:if>
  </xsl:template>

  <!-- A value of one finding; below the line without its working, which the formula and the facts
       it rests on give. -->
  <xsl:template match="value" mode="row">
    <xsl:param name="short" select="false()"/>
    <xsl:if test="not($short and contains(../because[1], @text))"><xsl:call-template name="value-line"><xsl:with-param name="short" select="$short"/></xsl:call-template></xsl:if>
  </xsl:template>

  <xsl:template name="value-line">
    <xsl:param name="short"/>
    <p class="working">
      <xsl:value-of select="@title"/><xsl:if test="not(@title)"><xsl:value-of select="@name"/></xsl:if>
      <xsl:text> = </xsl:text>
      <xsl:if test="@names and @names != key('formulas', concat(../@rule, ' ', @name))[1]/@names"><xsl:value-of select="concat(@names, ' = ')"/></xsl:if>
      <xsl:choose>
        <xsl:when test="$short or not(@working) or $withhold and @withheld"/>
        <xsl:when test="substring(@working, string-length(@working) - string-length(@text) + 1) = @text">
          <xsl:value-of select="substring(@working, 1, string-length(@working) - string-length(@text))"/>
        </xsl:when>
        <xsl:otherwise><xsl:value-of select="concat(@working, ' = ')"/></xsl:otherwise>
      </xsl:choose>
      <b><xsl:apply-templates select="@text" mode="said"/></b>
    </p><xsl:text> </xsl:text>
  </xsl:template>

  <!-- The formulas here; their sources and what they hold for are in the register of functions. -->
  <xsl:template name="block-functions">
    <xsl:param name="same"/>
    <xsl:param name="short"/>
    <xsl:variable name="all" select="function | $same/function[not(@name = current()/function/@name)]"/>
    <xsl:variable name="used" select="$all[not(@name = preceding-sibling::function/@name)]"/>
    <xsl:if test="$used">
      <p class="meta"><span class="label"><xsl:value-of select="$w[@id = 'functions']"/></span>
        <xsl:for-each select="$used[count(. | $used[@name = current()/@name][1]) = 1]">
          <xsl:if test="position() &gt; 1">; </xsl:if>
          <a href="#function-{@name}"><xsl:value-of select="translate(@name, '_', ' ')"/></a>
          <xsl:if test="not($short)"><xsl:value-of select="$colon"/><xsl:value-of select="@formula"/></xsl:if>
        </xsl:for-each>
      </p><xsl:text> </xsl:text>
    </xsl:if>
  </xsl:template>

  <!-- What nobody planned although it bears on this. -->
  <xsl:template name="block-options">
    <xsl:param name="same"/>
    <xsl:variable name="idle" select="$same/control[@state = 'not-planned'][not(@ref = $same/control[@state != 'not-planned']/@ref)]
      [not(@ref = preceding-sibling::control/@ref)][count(.. | $same[1]) = 1 or not(@ref = $same[1]/control/@ref)]"/>
    <xsl:if test="$idle">
      <p class="meta"><span class="label"><xsl:value-of select="$w[@id = 'not-planned-here']"/></span>
        <xsl:for-each select="$idle">
          <xsl:if test="position() &gt; 1">; </xsl:if>
          <a href="#control-{@ref}"><xsl:value-of select="@title"/><xsl:if test="not(@title)"><xsl:value-of select="@ref"/></xsl:if></a>
          <xsl:if test="@changes"><xsl:value-of select="concat(' (', @changes, ')')"/></xsl:if>
        </xsl:for-each>
      </p><xsl:text> </xsl:text>
    </xsl:if>
  </xsl:template>

  <!-- ===== what all rows of a block share ===== -->

  <!-- What every finding of a block has as its first has it, as a text to look it up in: a line each. -->
  <xsl:template name="shared">
    <xsl:param name="same"/>
    <xsl:variable name="n" select="count($same)"/>
    <xsl:for-each select="value">
      <xsl:if test="count($same[value[@name = current()/@name][@text = current()/@text][string(@working) = string(current()/@working)]]) = $n"><xsl:call-template name="shared-line"/></xsl:if>
    </xsl:for-each>
    <xsl:for-each select="condition">
      <xsl:if test="count($same[condition[@text = current()/@text][@case = current()/@case]]) = $n"><xsl:call-template name="shared-line"/></xsl:if>
    </xsl:for-each>
    <xsl:for-each select="rests">
      <xsl:if test="count($same[rests[@path = current()/@path]]) = $n"><xsl:call-template name="shared-line"/></xsl:if>
    </xsl:for-each>
  </xsl:template>

  <xsl:template name="shared-line">
    <xsl:value-of select="concat('&#10;', name(), ' ', @name, @case, @path, ' ', @working, ' ', @text[not(../@path)], '&#10;')"/>
  </xsl:template>

  <xsl:template name="block-common">
    <xsl:param name="shared"/>
    <xsl:param name="short" select="false()"/>
    <xsl:variable name="all" select="(value | condition | rests)[contains($shared, concat('&#10;', name(), ' ', @name, @case, @path, ' ', @working, ' ', @text[not(../@path)], '&#10;'))]"/>
    <xsl:variable name="said" select="$all[not($short and @settled = 'yes')][not(($short or @case = 'best') and @case = ../when/@case or @text = ../when/@text)]"/>
    <xsl:variable name="values" select="$all[self::value]"/>
    <xsl:variable name="worst" select="$said[@case = 'worst']"/>
    <xsl:variable name="best" select="$said[@case = 'best']"/>
    <xsl:variable name="facts" select="$all[self::rests]"/>
    <!-- Nothing is said to be shared where what is shared is not printed. -->
    <xsl:variable name="text">
      <xsl:apply-templates select="$values" mode="row"/>
      <xsl:call-template name="conditions"><xsl:with-param name="these" select="$worst"/><xsl:with-param name="word" select="'worst-when'"/></xsl:call-template>
      <xsl:call-template name="conditions"><xsl:with-param name="these" select="$best"/><xsl:with-param name="word" select="'best-when'"/></xsl:call-template>
      <xsl:call-template name="fact-run"><xsl:with-param name="facts" select="$facts"/></xsl:call-template>
    </xsl:variable>
    <xsl:if test="string($text) != ''">
      <div class="common">
        <p class="label"><xsl:value-of select="$w[@id = 'same-for-all']"/></p>
        <xsl:copy-of select="$text"/>
      </div>
    </xsl:if>
  </xsl:template>

  <!-- ===== rows ===== -->

  <!-- One row stands for all findings of a rule that say the same of the same person or thing:
       the same reasons, working and scores, at other times. -->
  <xsl:key name="twin" match="finding[@word = 'hazard'][not(score[@as = 'in-place']/@worst-band = /assessment/matrix/band[@above = 'yes']/@id)]" use="concat(@rule, '|', @about, '|', substring-after(@subject, '/'), '|',
    substring-before(@subject, '@'), '|', substring(@subject, 1, 400 * not(contains(@subject, '/') or contains(@subject, '@'))), '|',
    because[1], '|', because[2], '|', value[1]/@working, '|', value[2]/@working, '|', value[3]/@working, '|', value[4]/@working, '|',
    value[5]/@working, '|', value[6]/@working, '|',
    score[1]/@worst-likelihood, score[1]/@worst-severity, score[1]/@best-likelihood, score[1]/@best-severity, score[1]/@best-none,
    score[2]/@worst-likelihood, score[2]/@worst-severity, score[2]/@best-likelihood, score[2]/@best-severity, score[2]/@best-none,
    score[3]/@worst-likelihood, score[3]/@worst-severity, score[3]/@best-likelihood, score[3]/@best-severity, score[3]/@best-none,
    @waived-by, @unresolved, @too-open)"/>

  <xsl:template name="finding-table">
    <xsl:param name="rows"/>
    <xsl:param name="shared"/>
    <xsl:param name="label"/>
    <div class="keep">
    <table class="rows">
      <caption class="away"><xsl:value-of select="$label"/></caption>
      <thead><tr>
        <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'finding'"/><xsl:with-param name="class" select="'c1'"/></xsl:call-template>
        <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'why'"/><xsl:with-param name="class" select="'c2'"/></xsl:call-template>
        <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'as-described'"/><xsl:with-param name="class" select="'b'"/></xsl:call-template>
        <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'as-in-place'"/><xsl:with-param name="class" select="'b'"/></xsl:call-template>
        <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'as-planned'"/><xsl:with-param name="class" select="'b'"/></xsl:call-template>
      </tr></thead>
      <tbody>
        <xsl:for-each select="$rows">
          <xsl:variable name="mine" select="key('twin', concat(@rule, '|', @about, '|', substring-after(@subject, '/'), '|',
                substring-before(@subject, '@'), '|', substring(@subject, 1, 400 * not(contains(@subject, '/') or contains(@subject, '@'))), '|',
                because[1], '|', because[2], '|', value[1]/@working, '|', value[2]/@working, '|', value[3]/@working, '|', value[4]/@working, '|',
                value[5]/@working, '|', value[6]/@working, '|',
                score[1]/@worst-likelihood, score[1]/@worst-severity, score[1]/@best-likelihood, score[1]/@best-severity, score[1]/@best-none,
                score[2]/@worst-likelihood, score[2]/@worst-severity, score[2]/@best-likelihood, score[2]/@best-severity, score[2]/@best-none,
                score[3]/@worst-likelihood, score[3]/@worst-severity, score[3]/@best-likelihood, score[3]/@best-severity, score[3]/@best-none,
                @waived-by, @unresolved, @too-open))"/>
          <xsl:if test="count(. | $mine[1]) = 1">
            <xsl:call-template name="finding-row">
              <xsl:with-param name="shared" select="$shared"/><xsl:with-param name="twins" select="$mine[position() &gt; 1]"/>
            </xsl:call-template>
          </xsl:if>
        </xsl:for-each>
      </tbody>
    </table>
    </div>
  </xsl:template>

  <xsl:template name="finding-row">
    <xsl:param name="shared"/>
    <xsl:param name="twins"/>
    <tr id="{@id}">
      <xsl:call-template name="aid-marks"><xsl:with-param name="all" select=". | $twins"/></xsl:call-template>
      <th scope="row" class="c1">
        <span class="id"><xsl:value-of select="@id"/></span><xsl:text> </xsl:text>
        <xsl:call-template name="subject-of"/>
        <xsl:if test="@about"><xsl:value-of select="concat(', ', $w[@id = 'about'], ' ', @about)"/></xsl:if>
        <xsl:if test="@who"><span class="of"><xsl:value-of select="@who"/></span></xsl:if>
      </th>
      <td class="c2">
        <xsl:if test="@task"><p class="where"><xsl:value-of select="key('task', @task)/@title"/><xsl:value-of select="$colon"/></p></xsl:if>
        <xsl:apply-templates select="." mode="why"><xsl:with-param name="shared" select="$shared"/><xsl:with-param name="short" select="true()"/></xsl:apply-templates>
        <xsl:if test="$twins">
          <xsl:text> </xsl:text><p class="where"><xsl:value-of select="$w[@id = 'twins']"/>
            <xsl:for-each select="$twins">
              <xsl:variable name="t" select="key('task', @task)"/>
              <xsl:text> </xsl:text><span class="id" id="{@id}"><xsl:value-of select="@id"/></span>
              <xsl:choose>
                <xsl:when test="$t"><xsl:value-of select="concat(' ', $t/../@date, ' ', $t/@start)"/></xsl:when>
                <xsl:when test="contains(@subject, '@')"><xsl:value-of select="concat(' ', substring-after(@subject, '@'))"/></xsl:when>
              </xsl:choose>
              <xsl:if test="position() != last()">,</xsl:if>
            </xsl:for-each>
          </p>
        </xsl:if>
      </td>
      <td class="b" data-h="{$w[@id = 'as-described']}"><xsl:apply-templates select="score[@as = 'described']" mode="row"/></td>
      <td class="b" data-h="{$w[@id = 'as-in-place']}"><xsl:apply-templates select="score[@as = 'in-place']" mode="row"/></td>
      <td class="b" data-h="{$w[@id = 'as-planned']}"><xsl:apply-templates select="score[@as = 'planned']" mode="row"/></td>
    </tr>
  </xsl:template>

  <!-- A score in a narrow column: fill and letter, product, the word below. -->
  <xsl:template match="score[@worst-band]" mode="row">
    <xsl:variable name="fill"><xsl:call-template name="fill"><xsl:with-param name="band" select="@worst-band"/></xsl:call-template></xsl:variable>
    <span class="sw f{$fill}" aria-hidden="true"><b><xsl:value-of select="key('band', @worst-band)/@letter"/></b></span><xsl:text> </xsl:text>
    <span class="mul"><b><xsl:value-of select="@worst"/></b><xsl:value-of select="concat(' = ', @worst-likelihood, ' × ', @worst-severity)"/></span><xsl:text> </xsl:text>
    <b class="word"><xsl:value-of select="key('band', @worst-band)/@word"/></b>
    <xsl:call-template name="best"/>
  </xsl:template>

  <xsl:template match="score" mode="row"><xsl:apply-templates select="."/></xsl:template>

  <xsl:template name="subject-of">
    <xsl:variable name="at" select="key('task', @task)/immersion[@path = current()/@subject]"/>
    <xsl:choose>
      <xsl:when test="@task and @subject = @task"><xsl:value-of select="$w[@id = 'whole-task']"/></xsl:when>
      <xsl:when test="$at/@person-label"><xsl:value-of select="$at/@person-label"/></xsl:when>
      <xsl:when test="@subject-label"><xsl:value-of select="@subject-label"/></xsl:when>
      <xsl:otherwise><xsl:value-of select="@subject"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <!-- ===== why ===== -->

  <!-- Without what the block has already said for all its findings. -->
  <xsl:template match="finding" mode="why">
    <xsl:param name="shared"/>
    <xsl:param name="short" select="false()"/>
    <xsl:variable name="own" select="(value | condition | rests)[not(contains($shared, concat('&#10;', name(), ' ', @name, @case, @path, ' ', @working, ' ', @text[not(../@path)], '&#10;')))]"/>
    <xsl:variable name="compared" select="$own[self::condition][not($short and @settled = 'yes')][not(($short or @case = 'best') and @case = ../when/@case or @text = ../when/@text)]"/>
    <xsl:for-each select="because">
      <p class="because">
        <xsl:if test="@case = 'best'"><span class="label"><xsl:value-of select="$w[@id = 'at-best']"/></span></xsl:if>
        <xsl:call-template name="grouped"><xsl:with-param name="text" select="string(.)"/></xsl:call-template>
      </p><xsl:text> </xsl:text>
    </xsl:for-each>
    <xsl:call-template name="whens"/>
    <xsl:apply-templates mode="row" select="$own[self::value]">
      <xsl:with-param name="short" select="$short"/>
    </xsl:apply-templates>
    <xsl:call-template name="conditions"><xsl:with-param name="these" select="$compared[not(@case = 'best')]"/><xsl:with-param name="word" select="'worst-when'"/></xsl:call-template>
    <xsl:call-template name="conditions"><xsl:with-param name="these" select="$compared[@case = 'best']"/><xsl:with-param name="word" select="'best-when'"/></xsl:call-template>
    <xsl:call-template name="fact-run">
      <xsl:with-param name="facts" select="$own[self::rests]"/>
      <xsl:with-param name="subject" select="@subject"/>
    </xsl:call-template>
    <xsl:text> </xsl:text>
    <xsl:if test="floored"><p class="aside"><xsl:value-of select="$w[@id = 'floored']"/></p><xsl:text> </xsl:text></xsl:if>
    <xsl:if test="@unresolved = 'yes'"><p class="aside"><b><xsl:value-of select="$w[@id = 'unresolved']"/></b></p></xsl:if>
    <xsl:if test="@too-open = 'yes'"><p class="aside"><xsl:value-of select="$w[@id = 'too-open']"/></p></xsl:if>
    <xsl:if test="@waived-by">
      <p class="aside"><b><xsl:value-of select="concat($w[@id = 'waived'], ' ', @waived-by)"/></b>
        <xsl:if test="@waived-until"><xsl:value-of select="concat(', ', $w[@id = 'until'], ' ', @waived-until)"/></xsl:if>
        <xsl:if test="@waived-because"><xsl:value-of select="concat($colon, @waived-because)"/></xsl:if></p>
    </xsl:if>
    <xsl:variable name="used" select="control[@state != 'not-planned']"/>
    <xsl:if test="$used"><ul class="with"><xsl:apply-templates select="$used" mode="line"/></ul></xsl:if>
    <xsl:if test="$short"><xsl:call-template name="nearest-above"/></xsl:if>
  </xsl:template>

  <!-- A fact that is as stated, whatever else, is among those it rests on. -->
  <xsl:template name="conditions">
    <xsl:param name="these"/>
    <xsl:param name="word"/>
    <xsl:call-template name="compared">
      <xsl:with-param name="word" select="$word"/>
      <xsl:with-param name="these" select="$these[@settled = 'no' or not(contains(@text, ': ')) or contains(@text, ' &lt; ') or contains(@text, ' > ') or contains(@text, ' ≤ ') or contains(@text, ' ≥ ')]"/>
    </xsl:call-template>
  </xsl:template>

  <xsl:template name="compared">
    <xsl:param name="these"/>
    <xsl:param name="word"/>
    <xsl:if test="$these">
      <p class="aside"><span class="label"><xsl:value-of select="$w[@id = $word]"/></span>
        <xsl:for-each select="$these">
          <xsl:if test="position() &gt; 1">; </xsl:if><xsl:value-of select="@text"/>
          <xsl:if test="@settled = 'no'"><xsl:text> </xsl:text><span class="mark unknown"><xsl:value-of select="$w[@id = 'mark-unsettled']"/></span></xsl:if>
        </xsl:for-each>
      </p><xsl:text> </xsl:text>
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

  <!-- Facts as running text: those of `subject` first, then by whom they are of. -->
  <xsl:template name="fact-run">
    <xsl:param name="facts"/>
    <xsl:param name="subject" select="''"/>
    <xsl:variable name="its" select="$facts[key('fact', @path)/../@path = $subject]"/>
    <xsl:variable name="other" select="$facts[not(key('fact', @path)/../@path = $subject)]"/>
    <xsl:if test="$facts">
      <p class="aside"><span class="label"><xsl:value-of select="$w[@id = 'rests']"/></span>
        <xsl:for-each select="$its"><xsl:if test="position() &gt; 1">, </xsl:if><xsl:apply-templates select="."/></xsl:for-each>
        <xsl:for-each select="$other">
          <xsl:variable name="p" select="position()"/>
          <xsl:variable name="of" select="key('fact', @path)/.."/>
          <xsl:choose>
            <xsl:when test="$p &gt; 1 and key('fact', $other[$p - 1]/@path)/../@path = $of/@path">, </xsl:when>
            <xsl:otherwise>
              <xsl:if test="$its or $p &gt; 1">; </xsl:if>
              <xsl:if test="$of"><i>
                <xsl:choose>
                  <xsl:when test="$of/@path = ../@task"><xsl:value-of select="$w[@id = 'of-task']"/></xsl:when>
                  <xsl:when test="key('in-task', $of/@path)/../@start"><xsl:apply-templates select="key('in-task', $of/@path)" mode="when"/></xsl:when>
                  <xsl:when test="string($of/@label) != ''"><xsl:value-of select="$of/@label"/></xsl:when>
                  <xsl:otherwise><xsl:value-of select="$of/@path"/></xsl:otherwise>
                </xsl:choose>
                <xsl:value-of select="$colon"/></i></xsl:if>
            </xsl:otherwise>
          </xsl:choose>
          <xsl:apply-templates select="."/>
        </xsl:for-each>
      </p>
    </xsl:if>
  </xsl:template>

  <!-- Of many tasks with long titles: who, and when. -->
  <xsl:key name="in-task" match="schedule/day/task/immersion | schedule/day/task/post" use="@path"/>
  <xsl:template match="immersion | post" mode="when">
    <xsl:value-of select="concat(@person-label, ' ', ../../@date, ' ', ../@start)"/>
  </xsl:template>

  <xsl:template match="rests">
    <xsl:value-of select="@title"/><xsl:text> </xsl:text><b><xsl:apply-templates select="@text" mode="term"/></b>
    <xsl:call-template name="marks"><xsl:with-param name="fact" select="key('fact', @path)"/></xsl:call-template>
  </xsl:template>

  <!-- From a fact to what is known of it: its row among those not known, its evidence. -->
  <xsl:key name="open-row" match="/assessment/open-facts/fact[@removes &gt; 0]" use="@path"/>

  <xsl:template name="marks">
    <xsl:param name="fact"/>
    <xsl:choose>
      <xsl:when test="@state = 'unknown' or @assumed = 'yes'"><xsl:text> </xsl:text>
        <xsl:choose>
          <xsl:when test="self::rests and key('open-row', @path)"><a class="mark unknown" href="#open-{@path}"><xsl:value-of select="$w[@id = 'mark-unknown']"/></a></xsl:when>
          <xsl:otherwise><span class="mark unknown"><xsl:value-of select="$w[@id = 'mark-unknown']"/></span></xsl:otherwise>
        </xsl:choose></xsl:when>
      <xsl:when test="@state = 'derived'"><xsl:text> </xsl:text><span class="mark"><xsl:value-of select="$w[@id = 'mark-derived']"/></span></xsl:when>
      <xsl:when test="@state = 'set'"><xsl:text> </xsl:text><span class="mark"><xsl:value-of select="$w[@id = 'mark-set']"/></span></xsl:when>
    </xsl:choose>
    <xsl:if test="$fact/evidence"><xsl:text> </xsl:text><a class="mark" href="#evidence-{$fact/../@path}/{$fact/@name}"><xsl:value-of select="$w[@id = 'mark-evidence']"/></a></xsl:if>
  </xsl:template>
</xsl:stylesheet>
