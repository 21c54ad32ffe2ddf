<?xml version="1.0" encoding="UTF-8"?>
<!-- Every paper for the water, bound, with a list of contents. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">

  <xsl:template match="assessment" mode="set">
    <header class="cover">
      <p class="kicker"><xsl:value-of select="$w[@id = 'sheet-set']"/></p>
      <h1><xsl:value-of select="$production/@title"/></h1>
      <p class="lead"><xsl:value-of select="$w[@id = 'set-lead']"/></p>
      <p class="caution-box"><xsl:value-of select="$w[@id = 'caution']"/></p>
    </header>
    <nav class="contents one" aria-label="{$w[@id = 'contents']}">
      <p class="part"><b><xsl:value-of select="$w[@id = 'contents']"/></b></p>
      <ol>
        <xsl:for-each select="rescue[@site = $root/schedule/day/@site]">
          <li><a href="#emergency-{@site}"><xsl:value-of select="concat($w[@id = 'sheet-emergency'], $colon, key('subject', @site)/@label)"/></a></li>
        </xsl:for-each>
        <li><a href="#station"><xsl:value-of select="$w[@id = 'sheet-station']"/></a></li>
        <xsl:for-each select="schedule/day/task">
          <li><a href="#task-{@path}"><xsl:value-of select="concat($w[@id = 'sheet-task'], $colon)"/><xsl:call-template name="short"><xsl:with-param name="text" select="@title"/><xsl:with-param name="chars" select="160"/></xsl:call-template></a></li>
        </xsl:for-each>
        <li><a href="#card"><xsl:value-of select="$w[@id = 'sheet-card']"/></a></li>
        <xsl:for-each select="schedule/day">
          <li><a href="#record-{@path}"><xsl:value-of select="concat($w[@id = 'sheet-record'], $colon)"/><xsl:call-template name="day-words"><xsl:with-param name="day" select="."/></xsl:call-template></a></li>
        </xsl:for-each>
        <li><a href="#question"><xsl:value-of select="$w[@id = 'sheet-question']"/></a></li>
        <li><a href="#form"><xsl:value-of select="$w[@id = 'sheet-form']"/></a></li>
      </ol>
    </nav>
    <xsl:apply-templates select="." mode="emergency"/>
    <xsl:apply-templates select="." mode="station"/>
    <xsl:apply-templates select="schedule/day/task" mode="task-sheet"/>
    <section id="card" aria-label="{$w[@id = 'sheet-card']}"><xsl:apply-templates select="." mode="card"/></section>
    <xsl:apply-templates select="." mode="record"/>
    <xsl:apply-templates select="." mode="question"/>
    <xsl:apply-templates select="." mode="form"/>
  </xsl:template>
</xsl:stylesheet>
