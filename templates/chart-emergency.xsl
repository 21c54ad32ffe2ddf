<?xml version="1.0" encoding="UTF-8"?>
<!-- The emergency time line: when each milestone is reached after the trouble, at the earliest and
     at the latest. The rescue and the way to hospital have an axis each. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">

  <xsl:variable name="line-long" select="460"/>

  <!-- `site`: the path of one site, or nothing for all. -->
  <xsl:template name="emergency-lines">
    <xsl:param name="site" select="''"/>
    <xsl:for-each select="/assessment/rescue[step/@assumed = 'no'][$site = '' or @site = $site]/stretch">
      <xsl:variable name="named" select="concat($w[@id = concat('line-', current()/@of)], $colon, key('subject', ../@site)/@label)"/>
      <div class="scroll" tabindex="0" role="group" aria-label="{$named}">
      <table class="barred time-line">
        <caption><xsl:value-of select="$named"/></caption>
        <thead><tr>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'milestone'"/></xsl:call-template>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'after-trouble'"/><xsl:with-param name="class" select="'n'"/></xsl:call-template>
          <th scope="col" class="bars"><span class="away"><xsl:value-of select="$w[@id = 'drawn']"/></span>
            <xsl:call-template name="bar-axis"><xsl:with-param name="ticks" select="tick"/><xsl:with-param name="long" select="$line-long"/></xsl:call-template></th>
        </tr></thead>
        <tbody><xsl:for-each select="reached"><xsl:call-template name="milestone-row"/></xsl:for-each></tbody>
      </table>
      </div>
    </xsl:for-each>
  </xsl:template>

  <xsl:template name="milestone-row">
    <xsl:variable name="step" select="../../step[@id = current()/@step]"/>
    <xsl:variable name="text">
      <xsl:choose>
        <xsl:when test="@least"><xsl:value-of select="concat($w[@id = 'at-least'], ' ', @least)"/></xsl:when>
        <xsl:otherwise><xsl:value-of select="$step/@at"/></xsl:otherwise>
      </xsl:choose>
    </xsl:variable>
    <tr>
      <th scope="row"><xsl:value-of select="$w[@id = concat('step-', current()/@step)]"/></th>
      <td class="n"><xsl:value-of select="$text"/>
        <xsl:if test="@least"><xsl:text> </xsl:text><span class="mark unknown"><xsl:value-of select="$w[@id = 'mark-unknown']"/></span></xsl:if></td>
      <td class="bars">
        <svg class="drawn-bar" viewBox="0 0 {$line-long} {$bar-high}" width="{$line-long}" height="{$bar-high}" role="img" aria-label="{$text}">
          <xsl:for-each select="../tick"><path d="M{@at * $line-long div 1000} 0V{$bar-high}" stroke="{$hair}" stroke-width="0.7"/></xsl:for-each>
          <path d="M0 8H{@lo * $line-long div 1000}" stroke="{$soft}" stroke-width="1" stroke-dasharray="1 3"/>
          <xsl:choose>
            <xsl:when test="not(@least)">
              <xsl:call-template name="span-of"><xsl:with-param name="all" select="$line-long"/><xsl:with-param name="lo" select="@lo"/><xsl:with-param name="hi" select="@hi"/></xsl:call-template>
            </xsl:when>
            <xsl:otherwise>
              <xsl:variable name="x" select="@lo * $line-long div 1000"/>
              <rect x="{$x}" y="3.5" width="{(@hi - @lo) * $line-long div 1000}" height="9" fill="{$paper}" stroke="{$ink}" stroke-dasharray="3 2"/>
              <xsl:call-template name="strokes"><xsl:with-param name="x" select="$x"/><xsl:with-param name="to" select="@hi * $line-long div 1000"/><xsl:with-param name="y" select="3.5"/><xsl:with-param name="high" select="9"/><xsl:with-param name="step" select="9"/></xsl:call-template>
            </xsl:otherwise>
          </xsl:choose>
        </svg>
      </td>
    </tr>
  </xsl:template>
</xsl:stylesheet>
