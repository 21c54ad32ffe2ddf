<?xml version="1.0" encoding="UTF-8"?>
<!-- The nearest edges: each number from best to worst, where it stands now, and the edge at which
     a finding comes over the line or goes below it. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">

  <xsl:template name="margin-bars">
    <xsl:variable name="bars" select="/assessment/charts/bar[not($withhold and key('finding', @finding)[@discreet = 'yes' or margin/@withheld])]"/>
    <xsl:choose>
      <xsl:when test="$bars">
        <div class="scroll" tabindex="0" role="group" aria-label="{$w[@id = 'chart-margins']}">
        <table class="barred margins">
          <caption class="away"><xsl:value-of select="$w[@id = 'chart-margins']"/></caption>
          <thead><tr>
            <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'number'"/></xsl:call-template>
            <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'finding'"/></xsl:call-template>
            <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'now'"/><xsl:with-param name="class" select="'n'"/></xsl:call-template>
            <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'edge'"/><xsl:with-param name="class" select="'n'"/></xsl:call-template>
            <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'best-to-worst'"/><xsl:with-param name="class" select="'bars'"/></xsl:call-template>
            <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'beyond-edge'"/></xsl:call-template>
          </tr></thead>
          <tbody>
            <xsl:for-each select="$bars"><xsl:call-template name="margin-row"/></xsl:for-each>
          </tbody>
        </table>
        </div>
        <p class="key-line">
          <svg width="18" height="12" aria-hidden="true"><path d="M5 6l4 -5l4 5l-4 5z" fill="{$ink}"/></svg><xsl:text> </xsl:text><xsl:value-of select="$w[@id = 'key-now']"/>
          <svg width="10" height="14" aria-hidden="true"><path d="M5 0V14" stroke="{$ink}" stroke-width="2"/></svg><xsl:text> </xsl:text><xsl:value-of select="$w[@id = 'key-edge']"/>
          <svg width="30" height="12" aria-hidden="true"><path d="M0 11l10 -10M5 11l10 -10M10 11l10 -10M15 11l10 -10" stroke="{$ink}" stroke-width="0.9"/></svg><xsl:text> </xsl:text><xsl:value-of select="$w[@id = 'key-worse']"/>
        </p>
      </xsl:when>
      <xsl:otherwise><p><xsl:value-of select="$w[@id = 'none']"/></p></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <xsl:template name="margin-row">
    <xsl:variable name="f" select="key('finding', @finding)"/>
    <xsl:variable name="m" select="$f/margin[number(current()/@margin)]"/>
    <xsl:variable name="edge" select="@edge * $bar-long div 1000"/>
    <tr>
      <th scope="row"><xsl:value-of select="$m/@title"/></th>
      <td><a href="#{@finding}"><xsl:value-of select="@finding"/></a><xsl:text> </xsl:text><xsl:value-of select="$f/@title"/>
        <span class="of"><xsl:value-of select="$f/@subject-label"/>
          <xsl:if test="@more"><xsl:text> </xsl:text><xsl:call-template name="count"><xsl:with-param name="id" select="'n-more'"/><xsl:with-param name="n" select="@more"/></xsl:call-template></xsl:if></span></td>
      <td class="n"><xsl:value-of select="$m/@now"/></td>
      <td class="n"><xsl:value-of select="$m/@edge"/></td>
      <td class="bars">
        <svg class="drawn-bar" viewBox="0 0 {$bar-long} {$bar-high}" width="{$bar-long}" height="{$bar-high}" role="img"
             aria-label="{concat($w[@id = 'now'], ' ', $m/@now, ', ', $w[@id = 'edge'], ' ', $m/@edge, ', ', $w[@id = concat('worse-', current()/@worse)])}">
          <rect x="0.5" y="3.5" width="{$bar-long - 1}" height="9" fill="{$paper}" stroke="{$line}" stroke-width="0.8"/>
          <xsl:choose>
            <xsl:when test="@worse = 'up'">
              <xsl:call-template name="strokes"><xsl:with-param name="x" select="$edge"/><xsl:with-param name="to" select="$bar-long"/><xsl:with-param name="y" select="3.5"/><xsl:with-param name="high" select="9"/></xsl:call-template>
            </xsl:when>
            <xsl:otherwise>
              <xsl:call-template name="strokes"><xsl:with-param name="x" select="0"/><xsl:with-param name="to" select="$edge"/><xsl:with-param name="y" select="3.5"/><xsl:with-param name="high" select="9"/></xsl:call-template>
            </xsl:otherwise>
          </xsl:choose>
          <path d="M{$edge} 0V{$bar-high}" stroke="{$ink}" stroke-width="2"/>
          <xsl:call-template name="span-of"><xsl:with-param name="lo" select="@lo"/><xsl:with-param name="hi" select="@hi"/></xsl:call-template>
        </svg>
      </td>
      <td><xsl:value-of select="substring-before(concat($m/@words, ';'), ';')"/></td>
    </tr>
  </xsl:template>
</xsl:stylesheet>
