<?xml version="1.0" encoding="UTF-8"?>
<!-- The station card of the safety team, task by task: who stands where and
     watches whom, signals, gas, and the numbers to have in the head. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">

  <xsl:template match="assessment" mode="station">
    <section class="document" aria-label="{$w[@id = 'sheet-station']}">
      <xsl:call-template name="doc-head">
        <xsl:with-param name="title" select="$w[@id = 'sheet-station']"/>
        <xsl:with-param name="lead" select="'station-lead'"/><xsl:with-param name="id" select="'station'"/>
      </xsl:call-template>
      <xsl:apply-templates select="schedule/day/task" mode="station"/>
    </section>
  </xsl:template>

  <xsl:template match="task" mode="station">
    <section class="station" aria-label="{concat($w[@id = 'sheet-station'], $colon, @title)}">
      <xsl:call-template name="part"><xsl:with-param name="text"><xsl:call-template name="short"><xsl:with-param name="text" select="@title"/><xsl:with-param name="chars" select="160"/></xsl:call-template></xsl:with-param></xsl:call-template>
      <p class="kicker"><b><xsl:call-template name="hours"/></b><xsl:text> · </xsl:text><xsl:call-template name="day-words"><xsl:with-param name="day" select=".."/></xsl:call-template>
        <xsl:if test="../@site-label"> · <xsl:value-of select="../@site-label"/></xsl:if></p>
      <xsl:call-template name="station-stop"/>
      <xsl:call-template name="station-posts"/>
      <xsl:call-template name="station-water"/>
      <xsl:call-template name="station-gas"/>
      <xsl:call-template name="station-numbers"/>
    </section>
  </xsl:template>

  <xsl:template name="station-stop">
    <xsl:if test="key('found', @path)[@word = 'stop'][score[@as = 'in-place'][not(@state = 'gone')]]">
      <p class="stop-line"><xsl:value-of select="$w[@id = 'station-stop']"/></p>
    </xsl:if>
  </xsl:template>

  <xsl:template name="station-posts">
    <xsl:if test="post">
      <table class="compact posts-table stack">
        <caption class="away"><xsl:value-of select="$w[@id = 'on-deck']"/></caption>
        <thead><tr><xsl:call-template name="heads"><xsl:with-param name="words" select="'role person post-where post-watches post-scan post-ready post-reach post-carries post-relief'"/></xsl:call-template></tr></thead>
        <tbody>
          <xsl:for-each select="post">
            <tr>
              <th scope="row"><xsl:apply-templates select="@role" mode="term"/></th>
              <td data-h="{$w[@id = 'person']}"><b><xsl:call-template name="person-name"/></b></td>
              <td data-h="{$w[@id = 'post-where']}"><xsl:call-template name="fact-text"><xsl:with-param name="path" select="concat(@path, '/distance')"/></xsl:call-template></td>
              <td data-h="{$w[@id = 'post-watches']}"><xsl:call-template name="fact-text"><xsl:with-param name="path" select="concat(@path, '/watches')"/></xsl:call-template></td>
              <td data-h="{$w[@id = 'post-scan']}"><xsl:call-template name="fact-text"><xsl:with-param name="path" select="concat(@path, '/scan-time')"/></xsl:call-template></td>
              <td data-h="{$w[@id = 'post-ready']}"><xsl:call-template name="fact-text"><xsl:with-param name="path" select="concat(@path, '/ready-time')"/></xsl:call-template></td>
              <td data-h="{$w[@id = 'post-reach']}"><xsl:call-template name="fact-text"><xsl:with-param name="path" select="concat(@path, '/depth-reach')"/></xsl:call-template></td>
              <td data-h="{$w[@id = 'post-carries']}"><xsl:if test="key('fact', concat(@path, '/spare-gas'))/@text = 'yes'"><xsl:value-of select="$w[@id = 'carries-gas']"/><xsl:text> </xsl:text></xsl:if>
                <xsl:if test="key('fact', concat(@path, '/cutter'))/@text = 'yes'"><xsl:value-of select="$w[@id = 'carries-cutter']"/></xsl:if></td>
              <td data-h="{$w[@id = 'post-relief']}"><xsl:call-template name="fact-text"><xsl:with-param name="path" select="concat(@path, '/relief-interval')"/></xsl:call-template></td>
            </tr>
          </xsl:for-each>
        </tbody>
      </table>
    </xsl:if>
  </xsl:template>

  <xsl:template name="station-water">
    <xsl:if test="immersion">
      <table class="compact water-table stack">
        <caption><xsl:value-of select="$w[@id = 'in-water']"/></caption>
        <thead><tr><xsl:call-template name="heads"><xsl:with-param name="words" select="'person depth time-in-water breath-hold takes air-back diver-away diver-seen wears'"/></xsl:call-template></tr></thead>
        <tbody>
          <xsl:for-each select="immersion">
            <tr>
              <th scope="row"><xsl:call-template name="person-name"/><span class="of"><xsl:apply-templates select="@role" mode="term"/></span></th>
              <td data-h="{$w[@id = 'depth']}"><xsl:value-of select="@depth"/></td>
              <td data-h="{$w[@id = 'time-in-water']}"><xsl:value-of select="@time"/></td>
              <td data-h="{$w[@id = 'breath-hold']}"><b><xsl:value-of select="@breath-hold"/></b></td>
              <td data-h="{$w[@id = 'takes']}"><xsl:value-of select="@takes"/></td>
              <td data-h="{$w[@id = 'air-back']}"><b><xsl:call-template name="fact-text"><xsl:with-param name="path" select="concat(@path, '/air-return-time')"/></xsl:call-template></b></td>
              <td data-h="{$w[@id = 'diver-away']}"><xsl:call-template name="fact-text"><xsl:with-param name="path" select="concat(@path, '/diver-distance')"/></xsl:call-template></td>
              <td data-h="{$w[@id = 'diver-seen']}"><xsl:call-template name="fact-text"><xsl:with-param name="path" select="concat(@path, '/sees-diver')"/></xsl:call-template></td>
              <td data-h="{$w[@id = 'wears']}"><xsl:call-template name="short"><xsl:with-param name="text" select="@wears"/><xsl:with-param name="chars" select="70"/></xsl:call-template></td>
            </tr>
          </xsl:for-each>
        </tbody>
      </table>
    </xsl:if>
  </xsl:template>

  <xsl:template name="station-gas">
    <xsl:variable name="task" select="."/>
    <xsl:for-each select="key('subject', $task/immersion/@supply)[@entity = 'supply']">
      <p class="around"><span class="label"><xsl:value-of select="$w[@id = 'station-gas']"/></span>
        <b><xsl:value-of select="@label"/></b><xsl:value-of select="$colon"/>
        <xsl:for-each select="fact[@name = 'kind' or @name = 'gas' or @name = 'oxygen-fraction' or @name = 'cylinder-volume' or @name = 'cylinders' or @name = 'pressure' or @name = 'reserve-pressure']">
          <xsl:if test="position() &gt; 1">; </xsl:if><xsl:value-of select="concat(@title, ' ')"/><b><xsl:choose><xsl:when test="@assumed = 'yes'"><xsl:call-template name="blank"/></xsl:when><xsl:otherwise><xsl:value-of select="@text"/></xsl:otherwise></xsl:choose></b>
        </xsl:for-each></p>
    </xsl:for-each>
  </xsl:template>

  <xsl:template name="station-numbers">
    <dl class="strip numbers">
      <xsl:call-template name="pair"><xsl:with-param name="word" select="'recall'"/><xsl:with-param name="path" select="concat(@path, '/recall-signals')"/></xsl:call-template>
      <xsl:call-template name="pair"><xsl:with-param name="word" select="'number-count'"/><xsl:with-param name="path" select="concat(@path, '/count-interval')"/></xsl:call-template>
      <xsl:call-template name="pair"><xsl:with-param name="word" select="'number-sight'"/><xsl:with-param name="path" select="concat(@path, '/sight-distance')"/></xsl:call-template>
      <xsl:call-template name="pair"><xsl:with-param name="word" select="'number-air'"/><xsl:with-param name="path" select="concat(@path, '/air-distance')"/></xsl:call-template>
      <xsl:call-template name="pair"><xsl:with-param name="word" select="'number-exit'"/><xsl:with-param name="path" select="concat(@path, '/exit-distance')"/></xsl:call-template>
      <xsl:call-template name="pair"><xsl:with-param name="word" select="'number-water'"/><xsl:with-param name="path" select="concat(../@site, '/water/temperature')"/></xsl:call-template>
      <div><dt><xsl:value-of select="$w[@id = 'number-people']"/></dt><dd><xsl:value-of select="count(immersion)"/></dd></div>
    </dl>
    <p class="around"><span class="label"><xsl:value-of select="$w[@id = 'signals']"/></span><xsl:text> </xsl:text><xsl:value-of select="$w[@id = 'signals-words']"/></p>
  </xsl:template>
</xsl:stylesheet>
