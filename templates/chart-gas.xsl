<?xml version="1.0" encoding="UTF-8"?>
<!-- Gas in a dry chamber as time passes, between its least and its most, with its ceilings. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">

  <xsl:variable name="gas-left" select="56"/>
  <xsl:variable name="gas-wide" select="560"/>
  <xsl:variable name="gas-high" select="170"/>

  <!-- `subject`: the path of one chamber, or nothing for all. -->
  <xsl:template name="gas-over-time">
    <xsl:param name="subject" select="''"/>
    <xsl:for-each select="/assessment/charts/curve[$subject = '' or @subject = $subject]">
      <xsl:if test="not($withhold and key('finding', @finding)[@discreet = 'yes' or value/@withheld])"><xsl:call-template name="one-curve"/></xsl:if>
    </xsl:for-each>
  </xsl:template>

  <xsl:template name="one-curve">
    <xsl:variable name="f" select="key('finding', @finding)"/>
    <xsl:variable name="id" select="concat('chart-', @finding)"/>
    <xsl:variable name="top" select="12"/>
    <xsl:variable name="bottom" select="$top + $gas-high"/>
    <xsl:variable name="named" select="concat($f/@title, $colon, $f/@subject-label)"/>
    <figure class="chart">
      <figcaption><b><xsl:value-of select="$named"/></b><xsl:text> </xsl:text><a href="#{@finding}"><xsl:value-of select="@finding"/></a></figcaption>
      <div class="scroll drawing" tabindex="0" role="group" aria-label="{$named}">
      <svg class="drawn" role="img" aria-labelledby="{$id}-t {$id}-d" viewBox="0 0 {$gas-left + $gas-wide + 90} {$bottom + 34}"
           width="{$gas-left + $gas-wide + 90}" height="{$bottom + 34}" font-family="{$drawn-in}" font-size="9.5">
        <title id="{$id}-t"><xsl:value-of select="$named"/></title>
        <desc id="{$id}-d"><xsl:value-of select="concat($w[@id = 'chart-gas-from'], ' ', point[1]/@text, ' ', $w[@id = 'chart-gas-to'], ' ', point[last()]/@text, ' ', $w[@id = 'chart-gas-after'], ' ', point[last()]/@time)"/></desc>
        <xsl:for-each select="tick[@axis = 'upward']">
          <xsl:variable name="y" select="$bottom - @at * $gas-high div 1000"/>
          <path d="M{$gas-left} {$y}h{$gas-wide}" stroke="{$hair}" stroke-width="0.7"/>
          <text x="{$gas-left - 5}" y="{$y + 3}" text-anchor="end" fill="{$soft}"><xsl:value-of select="@text"/></text>
        </xsl:for-each>
        <xsl:for-each select="tick[@axis = 'across']">
          <xsl:variable name="x" select="$gas-left + @at * $gas-wide div 1000"/>
          <path d="M{$x} {$bottom}v4" stroke="{$soft}"/>
          <text x="{$x}" y="{$bottom + 15}" text-anchor="middle" fill="{$soft}"><xsl:value-of select="@text"/></text>
        </xsl:for-each>
        <text x="{$gas-left}" y="{$bottom + 29}" fill="{$soft}" font-size="8.5"><xsl:value-of select="$w[@id = 'chart-gas-time']"/></text>
        <path stroke="{$ink}" stroke-width="2" stroke-linejoin="round" fill="{$hair}">
          <xsl:attribute name="d">
            <xsl:for-each select="point"><xsl:value-of select="concat(substring('ML', 1 + (position() &gt; 1), 1), $gas-left + @at * $gas-wide div 1000, ' ', $bottom - @hi * $gas-high div 1000)"/></xsl:for-each>
            <xsl:for-each select="point"><xsl:sort select="@at" data-type="number" order="descending"/><xsl:value-of select="concat('L', $gas-left + @at * $gas-wide div 1000, ' ', $bottom - @lo * $gas-high div 1000)"/></xsl:for-each>
            <xsl:text>z</xsl:text>
          </xsl:attribute>
        </path>
        <xsl:for-each select="mark">
          <xsl:variable name="y" select="$bottom - @at * $gas-high div 1000"/>
          <path d="M{$gas-left} {$y}h{$gas-wide}" stroke="{$ink}" stroke-width="1.4" stroke-dasharray="7 3"/>
          <text x="{$gas-left + $gas-wide + 5}" y="{$y + 3}" fill="{$ink}" font-weight="bold"><xsl:value-of select="@ceiling"/></text>
        </xsl:for-each>
        <path d="M{$gas-left} {$top}V{$bottom}H{$gas-left + $gas-wide}" stroke="{$ink}" fill="none"/>
      </svg>
      </div>
      <p class="aside"><span class="label"><xsl:value-of select="$w[@id = 'in-numbers']"/></span>
        <xsl:variable name="curve" select="."/>
        <xsl:for-each select="point[@at = $curve/tick[@axis = 'across']/@at or position() = last()]">
          <xsl:if test="position() &gt; 1">; </xsl:if><xsl:value-of select="concat(@time, $colon)"/><b><xsl:value-of select="@text"/></b>
        </xsl:for-each>
        <xsl:for-each select="mark"><xsl:value-of select="concat('; ', @ceiling, $colon, @text)"/></xsl:for-each></p>
    </figure>
  </xsl:template>
</xsl:stylesheet>
