<?xml version="1.0" encoding="UTF-8"?>
<!-- The days: a lane for each person with what is planned and what was recorded,
     the same as a table, and each person's totals. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">

  <!-- The drawing, in its own units: width, first column, lane, head. -->
  <xsl:variable name="wide" select="720"/>
  <xsl:variable name="names" select="150"/>
  <xsl:variable name="lane" select="22"/>
  <xsl:variable name="head" select="40"/>
  <xsl:variable name="ink" select="$palette/colour[@id = 'ink']/@value"/>
  <xsl:variable name="soft" select="$palette/colour[@id = 'soft']/@value"/>
  <xsl:variable name="hair" select="$palette/colour[@id = 'hair']/@value"/>
  <xsl:variable name="wash" select="$palette/colour[@id = 'wash']/@value"/>
  <xsl:variable name="paper" select="$palette/colour[@id = 'paper']/@value"/>

  <xsl:template name="days">
    <section aria-labelledby="days">
      <xsl:call-template name="section-head"><xsl:with-param name="id" select="'days'"/></xsl:call-template>
      <xsl:if test="not(schedule/day)"><xsl:call-template name="nothing"/></xsl:if>
      <xsl:for-each select="schedule/day">
        <div class="day">
          <h3 id="day-{@date}"><xsl:value-of select="@words"/><xsl:if test="not(@words)"><xsl:value-of select="@date"/></xsl:if>
            <span class="under"><xsl:value-of select="@site-label"/>
              <xsl:if test="@call"><xsl:value-of select="concat(' · ', $w[@id = 'call'], ' ', @call)"/></xsl:if>
              <xsl:if test="@wrap"><xsl:value-of select="concat(' · ', $w[@id = 'wrap'], ' ', @wrap)"/></xsl:if></span></h3>
          <xsl:call-template name="lanes"/>
          <xsl:call-template name="totals"/>
        </div>
      </xsl:for-each>
    </section>
  </xsl:template>

  <!-- ===== lanes ===== -->

  <xsl:template name="lanes">
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
      <div class="scroll drawing" tabindex="0" role="group" aria-label="{$w[@id = 'lanes']}">
      <svg class="lanes" role="img" aria-label="{$w[@id = 'lanes']}: {@words}" viewBox="0 0 {$wide} {$tall}" width="{$wide}" height="{$tall}"
           font-family="DejaVu Sans Condensed, DejaVu Sans, sans-serif" font-size="9.5">
        <xsl:for-each select="task[@start-min][@finish-min]">
          <xsl:variable name="x" select="$names + (@start-min - $first * 60) * $scale"/>
          <rect x="{$x}" y="{$head - 17}" width="{(@finish-min - @start-min) * $scale}" height="{$tall - $head + 15}" fill="{$wash}" stroke="none"/>
          <text x="{$x + 2}" y="{$head - 6}" fill="{$ink}" font-weight="bold" font-size="8.5">
            <xsl:call-template name="fit"><xsl:with-param name="text" select="@title"/><xsl:with-param name="chars" select="floor((@finish-min - @start-min) * $scale div 4.9)"/></xsl:call-template>
          </text>
        </xsl:for-each>
        <xsl:call-template name="hours">
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
      <p class="lane-key">
        <svg width="26" height="11" aria-hidden="true"><rect x="0.5" y="1" width="25" height="9" fill="{$paper}" stroke="{$ink}"/></svg><xsl:text> </xsl:text><xsl:value-of select="$w[@id = 'key-window']"/>
        <svg width="26" height="11" aria-hidden="true"><rect x="0" y="3" width="26" height="6" fill="{$ink}"/></svg><xsl:text> </xsl:text><xsl:value-of select="$w[@id = 'key-record']"/>
        <svg width="26" height="11" aria-hidden="true"><path d="M0 6H26" stroke="{$soft}" stroke-width="1.5" stroke-dasharray="4 3"/></svg><xsl:text> </xsl:text><xsl:value-of select="$w[@id = 'key-post']"/>
      </p>
    </xsl:if>
  </xsl:template>

  <xsl:template name="hours">
    <xsl:param name="hour"/>
    <xsl:param name="first"/>
    <xsl:param name="last"/>
    <xsl:param name="scale"/>
    <xsl:param name="tall"/>
    <xsl:variable name="x" select="$names + ($hour - $first) * 60 * $scale"/>
    <path d="M{$x} {$head - 20}V{$tall - 2}" stroke="{$hair}" stroke-width="0.7"/>
    <text x="{$x}" y="10" fill="{$soft}" text-anchor="middle"><xsl:value-of select="concat($hour, ':00')"/></text>
    <xsl:if test="$hour &lt; $last">
      <xsl:call-template name="hours">
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
    <text x="0" y="{$y + 14}" fill="{$ink}">
      <xsl:call-template name="fit"><xsl:with-param name="text" select="@label"/><xsl:with-param name="chars" select="29"/></xsl:call-template>
    </text>
    <xsl:for-each select="$day/task[@start-min][@finish-min]">
      <xsl:variable name="x" select="$names + (@start-min - $first * 60) * $scale"/>
      <xsl:variable name="long" select="(@finish-min - @start-min) * $scale"/>
      <xsl:choose>
        <xsl:when test="immersion[@person = $p]">
          <rect x="{$x + 0.5}" y="{$y + 3}" width="{$long - 1}" height="16" fill="{$paper}" stroke="{$ink}" stroke-width="1"/>
          <text x="{$x + 4}" y="{$y + 12}" fill="{$ink}" font-size="8">
            <xsl:variable name="time"><xsl:value-of select="immersion[@person = $p]/@time"/><xsl:if test="not(immersion[@person = $p]/@time)">?</xsl:if></xsl:variable>
            <xsl:call-template name="fit"><xsl:with-param name="text" select="$time"/><xsl:with-param name="chars" select="floor($long div 4.6)"/></xsl:call-template>
          </text>
        </xsl:when>
        <xsl:when test="post[@person = $p]">
          <path d="M{$x} {$y + 11}h{$long}" stroke="{$soft}" stroke-width="1.5" stroke-dasharray="4 3"/>
        </xsl:when>
      </xsl:choose>
    </xsl:for-each>
    <xsl:for-each select="$day/record[@person = $p][@down-min][@up-min]">
      <rect x="{$names + (@down-min - $first * 60) * $scale}" y="{$y + 14}" width="{(@up-min - @down-min) * $scale}" height="5" fill="{$ink}"/>
    </xsl:for-each>
  </xsl:template>

  <!-- ===== tables ===== -->

  <xsl:template name="totals">
    <xsl:if test="total">
      <div class="scroll" tabindex="0" role="group" aria-label="{$w[@id = 'totals']}, {@words}">
      <table>
        <caption><xsl:value-of select="$w[@id = 'totals']"/></caption>
        <thead><tr>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'person'"/></xsl:call-template>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'task'"/></xsl:call-template>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'planned-water'"/><xsl:with-param name="class" select="'n'"/></xsl:call-template>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'recorded-water'"/><xsl:with-param name="class" select="'n'"/></xsl:call-template>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'seven-days'"/><xsl:with-param name="class" select="'n'"/></xsl:call-template>
        </tr></thead>
        <tbody>
          <xsl:for-each select="total">
            <xsl:variable name="p" select="@person"/>
            <tr>
              <th scope="row"><xsl:value-of select="@person-label"/><xsl:if test="not(@person-label)"><xsl:value-of select="@person"/></xsl:if>
                <xsl:if test="@under-18 = 'yes'"><xsl:text> </xsl:text><span class="mark"><xsl:value-of select="$w[@id = 'under-18']"/></span></xsl:if>
                <xsl:if test="@under-18 = 'unknown'"><xsl:text> </xsl:text><span class="mark unknown"><xsl:value-of select="$w[@id = 'age-unknown']"/></span></xsl:if></th>
              <td>
                <xsl:for-each select="../task/immersion[@person = $p]">
                  <span class="item"><xsl:value-of select="../@title"/>
                    <xsl:for-each select="@depth | @time | @breath-hold | @takes">
                      <xsl:text>, </xsl:text>
                      <xsl:if test="name() = 'breath-hold'"><xsl:value-of select="concat($w[@id = 'in-hold'], ' ')"/></xsl:if>
                      <xsl:value-of select="."/>
                      <xsl:if test="name() = 'takes'"><xsl:value-of select="concat(' ', $w[@id = 'in-takes'])"/></xsl:if>
                    </xsl:for-each></span>
                </xsl:for-each>
                <xsl:for-each select="../record[@person = $p]">
                  <span class="item quiet"><xsl:value-of select="concat($w[@id = 'key-record'], ': ', @down, '–', @up)"/>
                    <xsl:if test="@depth"><xsl:value-of select="concat(', ', @depth)"/></xsl:if></span>
                </xsl:for-each>
              </td>
              <td class="n"><xsl:value-of select="@planned"/></td>
              <td class="n"><xsl:value-of select="@recorded"/><xsl:if test="not(@recorded)">–</xsl:if></td>
              <td class="n"><xsl:value-of select="@seven-days"/></td>
            </tr>
          </xsl:for-each>
        </tbody>
      </table>
      </div>
    </xsl:if>
  </xsl:template>
</xsl:stylesheet>
