<?xml version="1.0" encoding="UTF-8"?>
<!-- A day as lanes: for each person the tasks with time in the water, what the log recorded, and
     how long it was from one time under water to the next. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">

  <xsl:key name="gaps" match="/assessment/charts/gap" use="@day"/>

  <!-- The drawing, in its own units: width, first column, lane, head. -->
  <xsl:variable name="wide" select="720"/>
  <xsl:variable name="names" select="140"/>
  <xsl:variable name="lane" select="27"/>
  <xsl:variable name="head" select="40"/>

  <!-- Called on a day. -->
  <xsl:template name="day-lanes">
    <xsl:variable name="day" select="."/>
    <xsl:variable name="people" select="$root/people/person[@path = $day/task/immersion/@person or @path = $day/task/post/@person or @path = $day/record/@person]"/>
    <xsl:variable name="first">
      <xsl:for-each select="task/@start-min | record/@down-min">
        <xsl:sort data-type="number"/><xsl:if test="position() = 1"><xsl:value-of select="floor(. div 60)"/></xsl:if>
      </xsl:for-each>
    </xsl:variable>
    <xsl:variable name="last">
      <xsl:for-each select="task/@finish-min | record/@up-min">
        <xsl:sort data-type="number" order="descending"/><xsl:if test="position() = 1"><xsl:value-of select="ceiling(. div 60)"/></xsl:if>
      </xsl:for-each>
    </xsl:variable>
    <xsl:if test="$people and number($last) &gt; number($first)">
      <xsl:variable name="scale" select="($wide - $names - 22) div (($last - $first) * 60)"/>
      <xsl:variable name="tall" select="$head + $lane * count($people) + 6"/>
      <figure class="chart">
      <div class="scroll drawing" tabindex="0" role="group" aria-label="{$w[@id = 'lanes']}, {@date}">
      <svg class="drawn" role="img" aria-labelledby="lanes-{@date}-t lanes-{@date}-d" viewBox="0 0 {$wide} {$tall}" width="{$wide}" height="{$tall}"
           font-family="{$drawn-in}" font-size="9.5">
        <title id="lanes-{@date}-t"><xsl:value-of select="concat($w[@id = 'lanes'], $colon, @words)"/></title>
        <desc id="lanes-{@date}-d"><xsl:value-of select="$w[@id = 'lanes-say']"/></desc>
        <xsl:for-each select="task[@start-min][@finish-min]">
          <xsl:variable name="x" select="$names + (@start-min - $first * 60) * $scale"/>
          <rect x="{$x}" y="{$head - 17}" width="{(@finish-min - @start-min) * $scale}" height="{$tall - $head + 15}" fill="{$wash}" stroke="none"/>
          <text x="{$x + 2}" y="{$head - 6}" fill="{$ink}" font-weight="bold" font-size="8.5">
            <xsl:call-template name="fit"><xsl:with-param name="text" select="@title"/><xsl:with-param name="chars" select="floor((@finish-min - @start-min) * $scale div 4.9)"/></xsl:call-template>
          </text>
        </xsl:for-each>
        <xsl:call-template name="hour-lines">
          <xsl:with-param name="hour" select="$first"/><xsl:with-param name="first" select="$first"/><xsl:with-param name="last" select="$last"/>
          <xsl:with-param name="scale" select="$scale"/><xsl:with-param name="tall" select="$tall"/>
        </xsl:call-template>
        <xsl:for-each select="$people">
          <xsl:call-template name="one-lane">
            <xsl:with-param name="day" select="$day"/><xsl:with-param name="y" select="$head + (position() - 1) * $lane"/>
            <xsl:with-param name="first" select="$first"/><xsl:with-param name="scale" select="$scale"/>
          </xsl:call-template>
        </xsl:for-each>
      </svg>
      </div>
      <figcaption class="key-line">
        <svg width="26" height="12" aria-hidden="true"><rect x="0.5" y="1" width="25" height="10" fill="{$paper}" stroke="{$ink}"/></svg><xsl:text> </xsl:text><xsl:value-of select="$w[@id = 'key-window']"/>
        <svg width="26" height="12" aria-hidden="true"><rect x="0" y="4" width="26" height="7" fill="{$ink}"/></svg><xsl:text> </xsl:text><xsl:value-of select="$w[@id = 'key-record']"/>
        <svg width="26" height="12" aria-hidden="true"><path d="M1 4v7M25 4v7M1 7.5H25" stroke="{$ink}" stroke-width="0.9"/></svg><xsl:text> </xsl:text><xsl:value-of select="$w[@id = 'key-gap']"/>
        <svg width="26" height="12" aria-hidden="true"><path d="M0 6H26" stroke="{$soft}" stroke-width="1.5" stroke-dasharray="4 3"/></svg><xsl:text> </xsl:text><xsl:value-of select="$w[@id = 'key-post']"/>
      </figcaption>
      <xsl:call-template name="gap-list"><xsl:with-param name="gaps" select="key('gaps', @path)"/></xsl:call-template>
      </figure>
    </xsl:if>
  </xsl:template>

  <xsl:template name="hour-lines">
    <xsl:param name="hour"/>
    <xsl:param name="first"/>
    <xsl:param name="last"/>
    <xsl:param name="scale"/>
    <xsl:param name="tall"/>
    <xsl:variable name="x" select="$names + ($hour - $first) * 60 * $scale"/>
    <path d="M{$x} {$head - 20}V{$tall - 2}" stroke="{$hair}" stroke-width="0.7"/>
    <text x="{$x}" y="10" fill="{$soft}" text-anchor="middle"><xsl:value-of select="concat($hour, ':00')"/></text>
    <xsl:if test="$hour &lt; $last">
      <xsl:call-template name="hour-lines">
        <xsl:with-param name="hour" select="$hour + 1"/><xsl:with-param name="first" select="$first"/><xsl:with-param name="last" select="$last"/>
        <xsl:with-param name="scale" select="$scale"/><xsl:with-param name="tall" select="$tall"/>
      </xsl:call-template>
    </xsl:if>
  </xsl:template>

  <xsl:template name="one-lane">
    <xsl:param name="day"/>
    <xsl:param name="y"/>
    <xsl:param name="first"/>
    <xsl:param name="scale"/>
    <xsl:variable name="p" select="@path"/>
    <path d="M0 {$y + $lane}H{$wide}" stroke="{$hair}" stroke-width="0.7"/>
    <text x="0" y="{$y + 16}" fill="{$ink}">
      <xsl:call-template name="fit"><xsl:with-param name="text" select="@label"/><xsl:with-param name="chars" select="27"/></xsl:call-template>
    </text>
    <xsl:for-each select="$day/task[@start-min][@finish-min]">
      <xsl:variable name="x" select="$names + (@start-min - $first * 60) * $scale"/>
      <xsl:variable name="long" select="(@finish-min - @start-min) * $scale"/>
      <xsl:choose>
        <xsl:when test="immersion[@person = $p]">
          <rect x="{$x + 0.5}" y="{$y + 3}" width="{$long - 1}" height="21" fill="{$paper}" stroke="{$ink}" stroke-width="1"/>
          <text x="{$x + 4}" y="{$y + 12}" fill="{$ink}" font-size="8">
            <xsl:variable name="time"><xsl:value-of select="immersion[@person = $p]/@time"/><xsl:if test="not(immersion[@person = $p]/@time)">?</xsl:if></xsl:variable>
            <xsl:call-template name="fit"><xsl:with-param name="text" select="$time"/><xsl:with-param name="chars" select="floor($long div 4.6)"/></xsl:call-template>
          </text>
        </xsl:when>
        <xsl:when test="post[@person = $p]">
          <path d="M{$x} {$y + 13}h{$long}" stroke="{$soft}" stroke-width="1.5" stroke-dasharray="4 3"/>
        </xsl:when>
      </xsl:choose>
    </xsl:for-each>
    <xsl:for-each select="$day/record[@person = $p][@down-min][@up-min]">
      <rect x="{$names + (@down-min - $first * 60) * $scale}" y="{$y + 15}" width="{(@up-min - @down-min) * $scale}" height="7" fill="{$ink}"/>
    </xsl:for-each>
    <xsl:for-each select="key('gaps', $day/@path)[@person = $p]">
      <xsl:variable name="x" select="$names + (@from-min - $first * 60) * $scale"/>
      <xsl:variable name="long" select="(@to-min - @from-min) * $scale"/>
      <path d="M{$x + 1} {$y + 15}v7M{$x + $long - 1} {$y + 15}v7M{$x + 1} {$y + 18.5}H{$x + $long - 1}" stroke="{$ink}" stroke-width="0.9"/>
      <xsl:if test="$long &gt; 5.2 * string-length(@text)">
        <rect x="{$x + $long div 2 - 2.4 * string-length(@text)}" y="{$y + 14}" width="{4.8 * string-length(@text)}" height="9" fill="{$paper}"/>
        <text x="{$x + $long div 2}" y="{$y + 21.5}" text-anchor="middle" fill="{$ink}" font-size="8"><xsl:value-of select="@text"/></text>
      </xsl:if>
    </xsl:for-each>
  </xsl:template>

  <!-- The same in words. -->
  <xsl:template name="gap-list">
    <xsl:param name="gaps"/>
    <xsl:if test="$gaps">
      <p class="aside"><span class="label"><xsl:value-of select="$w[@id = 'gaps']"/></span>
        <xsl:for-each select="$gaps">
          <xsl:if test="position() &gt; 1">; </xsl:if>
          <xsl:value-of select="concat(@person-label, ' ', @from, '–', @to, ', ')"/><b><xsl:value-of select="@text"/></b>
          <xsl:if test="@recorded = 'no'"><xsl:value-of select="concat(' ', $w[@id = 'gap-planned'])"/></xsl:if>
        </xsl:for-each></p>
    </xsl:if>
  </xsl:template>
</xsl:stylesheet>
