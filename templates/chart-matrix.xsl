<?xml version="1.0" encoding="UTF-8"?>
<!-- Every task on the matrix, before and after controls: a ring where it stands as described, a
     disc where it stands with what is in place, and a line between them where it moved. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">

  <xsl:key name="places" match="/assessment/charts/place" use="concat(@as, ' ', @task)"/>

  <!-- In the drawing's units: a cell, and what stands left of and below the first. -->
  <xsl:variable name="cell-wide" select="118"/>
  <xsl:variable name="cell-high" select="46"/>
  <xsl:variable name="cells-left" select="104"/>

  <xsl:template name="task-matrix">
    <xsl:variable name="levels" select="/assessment/matrix/likelihood"/>
    <xsl:variable name="across" select="/assessment/matrix/severity"/>
    <xsl:variable name="wide" select="$cells-left + count($across) * $cell-wide + 2"/>
    <xsl:variable name="tall" select="count($levels) * $cell-high + 36"/>
    <xsl:if test="/assessment/charts/place">
      <figure class="chart">
        <div class="scroll drawing" tabindex="0" role="group" aria-label="{$w[@id = 'chart-matrix']}">
        <svg class="drawn" role="img" aria-labelledby="chart-matrix-t chart-matrix-d" viewBox="0 0 {$wide} {$tall}" width="{$wide}" height="{$tall}"
             font-family="{$drawn-in}" font-size="9.5">
          <title id="chart-matrix-t"><xsl:value-of select="$w[@id = 'chart-matrix']"/></title>
          <desc id="chart-matrix-d"><xsl:value-of select="$w[@id = 'chart-matrix-says']"/></desc>
          <xsl:for-each select="$levels">
            <xsl:variable name="l" select="@level"/>
            <xsl:variable name="y" select="(count($levels) - @level) * $cell-high"/>
            <text x="0" y="{$y + 20}" fill="{$ink}" font-weight="bold"><xsl:value-of select="@level"/></text>
            <text x="12" y="{$y + 20}" fill="{$ink}"><xsl:value-of select="@word"/></text>
            <xsl:for-each select="$across">
              <xsl:call-template name="drawn-cell">
                <xsl:with-param name="x" select="$cells-left + (@level - 1) * $cell-wide"/><xsl:with-param name="y" select="$y"/>
                <xsl:with-param name="band" select="key('band', /assessment/matrix/cell[@likelihood = $l][@severity = current()/@level]/@band)"/>
              </xsl:call-template>
            </xsl:for-each>
          </xsl:for-each>
          <xsl:for-each select="$across">
            <text x="{$cells-left + (@level - 1) * $cell-wide + 4}" y="{$tall - 22}" fill="{$ink}">
              <tspan font-weight="bold"><xsl:value-of select="@level"/></tspan><xsl:value-of select="concat(' ', @word)"/></text>
          </xsl:for-each>
          <text x="0" y="{$tall - 22}" fill="{$soft}" font-size="8.5"><xsl:value-of select="concat('↑ ', $w[@id = 'likelihood'])"/></text>
          <text x="{$cells-left + 4}" y="{$tall - 8}" fill="{$soft}" font-size="8.5"><xsl:value-of select="concat('→ ', $w[@id = 'severity'])"/></text>
          <xsl:for-each select="/assessment/charts/place[@as = 'in-place']">
            <xsl:variable name="before" select="key('places', concat('described ', @task))"/>
            <xsl:if test="$before[@likelihood != current()/@likelihood or @severity != current()/@severity]">
              <path stroke="{$ink}" stroke-width="1.4" stroke-dasharray="3 2" fill="none">
                <xsl:attribute name="d">M<xsl:apply-templates select="$before" mode="spot"/>L<xsl:apply-templates select="." mode="spot"/></xsl:attribute>
              </path>
              <xsl:apply-templates select="$before" mode="mark"/>
            </xsl:if>
            <xsl:apply-templates select="." mode="mark"/>
          </xsl:for-each>
        </svg>
        </div>
        <figcaption class="key-line">
          <svg width="16" height="16" aria-hidden="true"><circle cx="8" cy="8" r="7" fill="{$paper}" stroke="{$ink}" stroke-width="1.3"/></svg><xsl:text> </xsl:text><xsl:value-of select="$w[@id = 'as-described']"/>
          <svg width="16" height="16" aria-hidden="true"><circle cx="8" cy="8" r="7.5" fill="{$ink}"/></svg><xsl:text> </xsl:text><xsl:value-of select="$w[@id = 'm-in-place']"/>
          <xsl:text> · </xsl:text><xsl:value-of select="$w[@id = 'chart-matrix-numbers']"/>
        </figcaption>
      </figure>
    </xsl:if>
  </xsl:template>

  <!-- A cell: its band's tint and strokes that grow denser with it, and its letter. -->
  <xsl:template name="drawn-cell">
    <xsl:param name="x"/>
    <xsl:param name="y"/>
    <xsl:param name="band"/>
    <xsl:variable name="fill"><xsl:call-template name="fill"><xsl:with-param name="band" select="$band/@id"/></xsl:call-template></xsl:variable>
    <xsl:variable name="colour" select="$palette/colour[@id = concat('stroke-', $fill)]/@value"/>
    <rect x="{$x + 1}" y="{$y + 1}" width="{$cell-wide - 2}" height="{$cell-high - 2}" stroke="{$colour}" stroke-width="{0.6 + 0.4 * $fill}"
          fill="{$palette/colour[@id = concat('tint-', $fill)]/@value}"/>
    <!-- strokes denser with the band, so that it shows without colour -->
    <xsl:if test="$fill &gt; 1 and $fill &lt; 5">
      <path stroke="{$colour}" stroke-width="1" fill="none"><xsl:attribute name="d">
        <xsl:call-template name="stroke-path">
          <xsl:with-param name="x" select="$x + 3"/><xsl:with-param name="to" select="$x + $cell-wide - 2"/>
          <xsl:with-param name="y" select="$y + 39"/><xsl:with-param name="high" select="5"/><xsl:with-param name="step" select="14 - 3 * $fill"/>
        </xsl:call-template></xsl:attribute></path>
    </xsl:if>
    <rect x="{$x + 4}" y="{$y + 4}" width="12" height="12" fill="{$paper}" stroke="{$ink}" stroke-width="0.6"/>
    <text x="{$x + 10}" y="{$y + 13.2}" text-anchor="middle" fill="{$ink}" font-weight="bold" font-size="8.5"><xsl:value-of select="$band/@letter"/></text>
  </xsl:template>

  <!-- Where a mark stands: rings in the upper half of a cell, discs in the lower. -->
  <xsl:template match="place" mode="x">
    <xsl:variable name="room" select="$cell-wide - 34"/>
    <xsl:variable name="step">
      <xsl:choose><xsl:when test="@of &gt; 5"><xsl:value-of select="$room div @of"/></xsl:when><xsl:otherwise>18</xsl:otherwise></xsl:choose>
    </xsl:variable>
    <xsl:value-of select="$cells-left + (@severity - 1) * $cell-wide + 27 + @at * $step"/>
  </xsl:template>

  <xsl:template match="place" mode="y">
    <xsl:value-of select="(count(/assessment/matrix/likelihood) - @likelihood) * $cell-high + 11 + 17 * (@as != 'described')"/>
  </xsl:template>

  <xsl:template match="place" mode="spot"><xsl:apply-templates select="." mode="x"/><xsl:text> </xsl:text><xsl:apply-templates select="." mode="y"/></xsl:template>

  <xsl:template match="place" mode="mark">
    <xsl:variable name="x"><xsl:apply-templates select="." mode="x"/></xsl:variable>
    <xsl:variable name="y"><xsl:apply-templates select="." mode="y"/></xsl:variable>
    <xsl:variable name="ring" select="@as = 'described'"/>
    <circle cx="{$x}" cy="{$y}" r="8" stroke-width="1.3" stroke="{$ink}">
      <xsl:attribute name="fill"><xsl:choose><xsl:when test="$ring"><xsl:value-of select="$paper"/></xsl:when><xsl:otherwise><xsl:value-of select="$ink"/></xsl:otherwise></xsl:choose></xsl:attribute>
    </circle>
    <circle cx="{$x}" cy="{$y}" r="9.2" fill="none" stroke="{$paper}" stroke-width="1"/>
    <text x="{$x}" y="{$y + 3}" text-anchor="middle" font-weight="bold" font-size="8.5">
      <xsl:attribute name="fill"><xsl:choose><xsl:when test="$ring"><xsl:value-of select="$ink"/></xsl:when><xsl:otherwise><xsl:value-of select="$paper"/></xsl:otherwise></xsl:choose></xsl:attribute>
      <xsl:value-of select="@number"/></text>
  </xsl:template>
</xsl:stylesheet>
