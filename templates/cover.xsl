<?xml version="1.0" encoding="UTF-8"?>
<!-- The first pages: what this is, the headline, the contents, tasks at a glance. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">

  <xsl:template name="cover">
    <header class="cover">
      <p class="kicker"><xsl:value-of select="$w[@id = 'assessment']"/></p>
      <h1><xsl:value-of select="$production/@title"/></h1>
      <dl class="strip">
        <xsl:call-template name="cover-line"><xsl:with-param name="word" select="'reference'"/><xsl:with-param name="text" select="$production/@reference"/></xsl:call-template>
        <xsl:call-template name="cover-line"><xsl:with-param name="word" select="'revision'"/><xsl:with-param name="text" select="$production/@revision"/></xsl:call-template>
        <xsl:call-template name="cover-line"><xsl:with-param name="word" select="'dated'"/><xsl:with-param name="text" select="($production/@on-words | $production/@on[not(../@on-words)])"/></xsl:call-template>
        <xsl:call-template name="cover-line"><xsl:with-param name="word" select="'prepared-by'"/><xsl:with-param name="text" select="$production/@by"/></xsl:call-template>
        <xsl:call-template name="cover-line"><xsl:with-param name="word" select="'jurisdiction'"/><xsl:with-param name="text" select="$production/@jurisdiction"/></xsl:call-template>
      </dl>
      <xsl:call-template name="status-box"/>
      <xsl:call-template name="headline"/>
      <p class="caution-box"><xsl:value-of select="$w[@id = 'caution']"/></p>
      <xsl:if test="$personal">
        <p class="confidential"><b><xsl:value-of select="$w[@id = 'confidential']"/>.</b>
          <xsl:text> </xsl:text><xsl:value-of select="$w[@id = 'confidential-why']"/></p>
      </xsl:if>
      <xsl:if test="not-translated">
        <p class="quiet"><xsl:value-of select="$w[@id = 'in-english']"/><xsl:text> </xsl:text>
          <xsl:call-template name="count"><xsl:with-param name="id" select="'n-rules-english'"/><xsl:with-param name="n" select="count(not-translated/rule)"/></xsl:call-template>
          <xsl:text>, </xsl:text>
          <xsl:call-template name="count"><xsl:with-param name="id" select="'n-controls-english'"/><xsl:with-param name="n" select="count(not-translated/control)"/></xsl:call-template>.</p>
      </xsl:if>
    </header>
  </xsl:template>

  <xsl:template name="cover-line">
    <xsl:param name="word"/>
    <xsl:param name="text"/>
    <div><dt><xsl:value-of select="$w[@id = $word]"/></dt>
      <dd><xsl:call-template name="stated"><xsl:with-param name="text" select="$text"/></xsl:call-template></dd></div>
  </xsl:template>

  <xsl:template name="status-box">
    <xsl:if test="$draft">
      <div class="status-box">
        <p class="status-big"><xsl:call-template name="status-word"/></p>
        <p><b><xsl:call-template name="status-counts"/></b></p>
        <p>
          <xsl:choose>
            <xsl:when test="$incomplete"><xsl:value-of select="$w[@id = 'status-incomplete-why']"/></xsl:when>
            <xsl:otherwise><xsl:value-of select="$w[@id = 'status-draft-why']"/></xsl:otherwise>
          </xsl:choose>
        </p>
      </div>
    </xsl:if>
  </xsl:template>

  <xsl:template name="headline">
    <ul class="big" aria-label="{$w[@id = 'headline']}">
      <xsl:call-template name="big"><xsl:with-param name="n" select="$root/@stops"/><xsl:with-param name="word" select="'big-stops'"/><xsl:with-param name="to" select="'stops'"/></xsl:call-template>
      <xsl:call-template name="big"><xsl:with-param name="n" select="$root/@above"/><xsl:with-param name="word" select="'big-above'"/><xsl:with-param name="to" select="'above'"/></xsl:call-template>
      <xsl:call-template name="big"><xsl:with-param name="n" select="$root/@duties-not-met"/><xsl:with-param name="word" select="'big-not-met'"/><xsl:with-param name="to" select="'duties'"/></xsl:call-template>
      <xsl:call-template name="big"><xsl:with-param name="n" select="$root/@duties-open"/><xsl:with-param name="word" select="'big-duties-open'"/><xsl:with-param name="to" select="'duties'"/></xsl:call-template>
      <xsl:call-template name="big"><xsl:with-param name="n" select="$root/@open"/><xsl:with-param name="word" select="'big-open'"/><xsl:with-param name="to" select="'open'"/></xsl:call-template>
      <xsl:call-template name="big"><xsl:with-param name="n" select="$root/@waived"/><xsl:with-param name="word" select="'big-waived'"/><xsl:with-param name="to" select="'waivers'"/></xsl:call-template>
    </ul>
    <p class="quiet"><xsl:value-of select="$w[@id = 'headline-note']"/></p>
  </xsl:template>

  <xsl:template name="big">
    <xsl:param name="n"/>
    <xsl:param name="word"/>
    <xsl:param name="to"/>
    <li>
      <xsl:if test="$n = 0"><xsl:attribute name="class">zero</xsl:attribute></xsl:if>
      <a href="#{$to}"><b><xsl:value-of select="$n"/></b><xsl:text> </xsl:text><span><xsl:call-template name="word-for"><xsl:with-param name="n" select="$n"/><xsl:with-param name="id" select="$word"/></xsl:call-template></span></a>
    </li>
  </xsl:template>

  <xsl:template name="contents">
    <nav class="contents" aria-labelledby="contents">
      <h2 id="contents"><xsl:value-of select="$w[@id = 'contents']"/></h2>
      <ol>
        <xsl:for-each select="$sections">
          <li><a href="#{@id}"><span class="no"><xsl:value-of select="position()"/></span><xsl:text> </xsl:text><xsl:value-of select="@title"/></a></li>
        </xsl:for-each>
      </ol>
      <p class="quiet"><xsl:value-of select="$w[@id = 'edition']"/></p>
    </nav>
  </xsl:template>

  <!-- ===== tasks at a glance ===== -->

  <xsl:template name="tasks">
    <section aria-labelledby="tasks">
      <xsl:call-template name="section-head"><xsl:with-param name="id" select="'tasks'"/></xsl:call-template>
      <div class="scroll" tabindex="0" role="group" aria-labelledby="tasks">
      <table class="tasks">
        <caption class="away"><xsl:value-of select="$sections[@id = 'tasks']/@title"/></caption>
        <thead><tr>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'task'"/></xsl:call-template>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'in-water'"/><xsl:with-param name="class" select="'n'"/></xsl:call-template>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'as-described'"/><xsl:with-param name="class" select="'b'"/></xsl:call-template>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'as-in-place'"/><xsl:with-param name="class" select="'b'"/></xsl:call-template>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'as-planned'"/><xsl:with-param name="class" select="'b'"/></xsl:call-template>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'stops'"/><xsl:with-param name="class" select="'n'"/></xsl:call-template>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'above'"/><xsl:with-param name="class" select="'n'"/></xsl:call-template>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'open-here'"/><xsl:with-param name="class" select="'n'"/></xsl:call-template>
        </tr></thead>
        <tbody>
          <xsl:for-each select="schedule/day/task">
            <xsl:call-template name="task-row">
              <xsl:with-param name="found" select="key('place', concat('task ', @path))"/>
              <xsl:with-param name="title" select="@title"/><xsl:with-param name="number" select="position()"/>
              <xsl:with-param name="when">
                <xsl:value-of select="../@words"/>
                <xsl:if test="not(../@words)"><xsl:value-of select="../@date"/></xsl:if>
                <xsl:if test="@start">, <xsl:value-of select="concat(@start, '–', @finish)"/></xsl:if>
              </xsl:with-param>
              <xsl:with-param name="people" select="count(immersion)"/>
            </xsl:call-template>
          </xsl:for-each>
          <xsl:if test="$all[not(@task)]">
            <xsl:call-template name="task-row">
              <xsl:with-param name="found" select="$all[not(@task)]"/>
              <xsl:with-param name="title" select="$w[@id = 'elsewhere']"/>
            </xsl:call-template>
          </xsl:if>
        </tbody>
      </table>
      </div>
      <xsl:call-template name="band-key"/>
      <xsl:call-template name="remedies"/>
    </section>
  </xsl:template>

  <xsl:template name="task-row">
    <xsl:param name="found"/>
    <xsl:param name="title"/>
    <xsl:param name="when"/>
    <xsl:param name="people"/>
    <xsl:param name="number"/>
    <xsl:variable name="risks" select="$found[@word = 'hazard']"/>
    <tr>
      <th scope="row"><xsl:if test="$number"><span class="task-no"><xsl:value-of select="$number"/></span><xsl:text> </xsl:text></xsl:if><xsl:value-of select="$title"/><span class="of"><xsl:value-of select="$when"/></span></th>
      <td class="n"><xsl:value-of select="$people"/></td>
      <td class="b"><xsl:call-template name="worst-of"><xsl:with-param name="findings" select="$risks"/><xsl:with-param name="as" select="'described'"/></xsl:call-template></td>
      <td class="b"><xsl:call-template name="worst-of"><xsl:with-param name="findings" select="$risks"/><xsl:with-param name="as" select="'in-place'"/></xsl:call-template></td>
      <td class="b"><xsl:call-template name="worst-of"><xsl:with-param name="findings" select="$risks"/><xsl:with-param name="as" select="'planned'"/></xsl:call-template></td>
      <td class="n"><xsl:value-of select="count($found[@word = 'stop'][score[@as = 'in-place'][not(@state = 'gone')]])"/></td>
      <td class="n"><xsl:value-of select="count($risks[score[@as = 'in-place']/@worst-band = $above])"/></td>
      <td class="n"><xsl:value-of select="count(key('open-at', $found/rests[@state = 'unknown']/@path))"/></td>
    </tr>
  </xsl:template>

  <xsl:template name="limits">
    <section aria-labelledby="limits">
      <xsl:call-template name="section-head"><xsl:with-param name="id" select="'limits'"/></xsl:call-template>
      <ul class="points">
        <xsl:for-each select="$w[starts-with(@id, 'limits-')]"><li><xsl:value-of select="."/></li></xsl:for-each>
      </ul>
    </section>
  </xsl:template>
</xsl:stylesheet>
