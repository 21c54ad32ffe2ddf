<?xml version="1.0" encoding="UTF-8"?>
<!-- What every drawing shares: colours, patterns, the axis. Drawings only place what <charts>
     and <schedule> state, in their own units; each works without colour, and what it shows stands
     in a table or list beside it too. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">

  <xsl:variable name="ink" select="$palette/colour[@id = 'ink']/@value"/>
  <xsl:variable name="soft" select="$palette/colour[@id = 'soft']/@value"/>
  <xsl:variable name="line" select="$palette/colour[@id = 'line']/@value"/>
  <xsl:variable name="hair" select="$palette/colour[@id = 'hair']/@value"/>
  <xsl:variable name="wash" select="$palette/colour[@id = 'wash']/@value"/>
  <xsl:variable name="paper" select="$palette/colour[@id = 'paper']/@value"/>
  <xsl:variable name="deep" select="$palette/colour[@id = 'deep']/@value"/>
  <xsl:variable name="drawn-in" select="'DejaVu Sans Condensed, DejaVu Sans, sans-serif'"/>

  <xsl:key name="finding" match="/assessment/findings/finding | /assessment/duties/duty" use="@id"/>

  <!-- The bar of a table row is this long; its axis, in the table's head, is too. -->
  <xsl:variable name="bar-long" select="210"/>
  <xsl:variable name="bar-high" select="16"/>

  <!-- Strokes across an area, from `x` on: what is too much, or not known. Drawn one by one,
       because not every program that sets paper knows patterns. -->
  <xsl:template name="strokes">
    <xsl:param name="x"/>
    <xsl:param name="to"/>
    <xsl:param name="y"/>
    <xsl:param name="high"/>
    <xsl:param name="step" select="5"/>
    <xsl:variable name="d">
      <xsl:call-template name="stroke-path">
        <xsl:with-param name="x" select="$x"/><xsl:with-param name="to" select="$to"/><xsl:with-param name="y" select="$y"/>
        <xsl:with-param name="high" select="$high"/><xsl:with-param name="step" select="$step"/>
      </xsl:call-template>
    </xsl:variable>
    <xsl:if test="string($d) != ''"><path d="{$d}" stroke="{$ink}" stroke-width="0.9" fill="none"/></xsl:if>
  </xsl:template>

  <xsl:template name="stroke-path">
    <xsl:param name="x"/>
    <xsl:param name="to"/>
    <xsl:param name="y"/>
    <xsl:param name="high"/>
    <xsl:param name="step"/>
    <xsl:if test="$x + $high &lt;= $to">
      <xsl:value-of select="concat('M', $x, ' ', $y + $high, 'l', $high, ' -', $high)"/>
      <xsl:call-template name="stroke-path">
        <xsl:with-param name="x" select="$x + $step"/><xsl:with-param name="to" select="$to"/><xsl:with-param name="y" select="$y"/>
        <xsl:with-param name="high" select="$high"/><xsl:with-param name="step" select="$step"/>
      </xsl:call-template>
    </xsl:if>
  </xsl:template>

  <!-- The ticks of an axis over the bars of a table, in its head. -->
  <xsl:template name="bar-axis">
    <xsl:param name="ticks"/>
    <xsl:param name="long" select="$bar-long"/>
    <svg class="drawn-bar" viewBox="0 0 {$long} {$bar-high}" width="{$long}" height="{$bar-high}" aria-hidden="true"
         font-family="{$drawn-in}" font-size="9" font-weight="normal">
      <xsl:for-each select="$ticks">
        <xsl:variable name="x" select="@at * $long div 1000"/>
        <path d="M{$x} 12V{$bar-high}" stroke="{$line}"/>
        <text x="{$x}" y="9" fill="{$soft}">
          <xsl:attribute name="text-anchor">
            <xsl:choose>
              <xsl:when test="@at &lt; 40">start</xsl:when><xsl:when test="@at &gt; 960">end</xsl:when><xsl:otherwise>middle</xsl:otherwise>
            </xsl:choose>
          </xsl:attribute>
          <xsl:value-of select="@text"/></text>
      </xsl:for-each>
    </svg>
  </xsl:template>

  <!-- From the least to the most: a block, or a mark where both are one. -->
  <xsl:template name="span-of">
    <xsl:param name="all" select="$bar-long"/>
    <xsl:param name="lo"/>
    <xsl:param name="hi"/>
    <xsl:param name="y" select="3"/>
    <xsl:param name="high" select="10"/>
    <xsl:variable name="x" select="$lo * $all div 1000"/>
    <xsl:variable name="long" select="($hi - $lo) * $all div 1000"/>
    <xsl:choose>
      <xsl:when test="$long &gt; 5"><rect x="{$x}" y="{$y}" width="{$long}" height="{$high}" fill="{$ink}"/></xsl:when>
      <xsl:otherwise><path d="M{$x + $long div 2 - 4} {$y + $high div 2}l4 -{$high div 2}l4 {$high div 2}l-4 {$high div 2}z" fill="{$ink}"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>
</xsl:stylesheet>
