<?xml version="1.0" encoding="UTF-8"?>
<!-- Totals against ceilings: person by person, each total a bar towards the most it may be. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">

  <xsl:key name="ceilings" match="/assessment/charts/ceiling" use="string(@person)"/>

  <!-- `day`: the path of one day, or nothing for all. -->
  <xsl:template name="totals-and-ceilings">
    <xsl:param name="day" select="''"/>
    <xsl:param name="id" select="'totals'"/>
    <xsl:variable name="all" select="/assessment/charts/ceiling[$day = '' or @day = $day]"/>
    <xsl:variable name="drawn" select="$all[not($withhold and key('finding', @finding)[@discreet = 'yes' or value/@withheld])]"/>
    <xsl:if test="$drawn">
      <div class="scroll" tabindex="0" role="group" aria-label="{$w[@id = 'chart-totals']}">
      <table class="barred totals">
        <caption><xsl:value-of select="$w[@id = 'chart-totals']"/><span class="of"><xsl:value-of select="$w[@id = 'chart-totals-says']"/></span></caption>
        <thead><tr>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'person'"/></xsl:call-template>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'what-total'"/></xsl:call-template>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'total'"/><xsl:with-param name="class" select="'n'"/></xsl:call-template>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'ceiling'"/><xsl:with-param name="class" select="'n'"/></xsl:call-template>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'how-far'"/><xsl:with-param name="class" select="'bars'"/></xsl:call-template>
        </tr></thead>
        <xsl:for-each select="$root/people/person[key('ceilings', @path)]">
          <xsl:variable name="here" select="key('ceilings', @path)[$day = '' or @day = $day][not($withhold and key('finding', @finding)[@discreet = 'yes' or value/@withheld])]"/>
          <xsl:if test="$here">
            <tbody data-person="{@path}">
              <xsl:for-each select="$here"><xsl:call-template name="total-row"><xsl:with-param name="first" select="position() = 1"/></xsl:call-template></xsl:for-each>
            </tbody>
          </xsl:if>
        </xsl:for-each>
      </table>
      </div>
    </xsl:if>
  </xsl:template>

  <xsl:template name="total-row">
    <xsl:param name="first"/>
    <xsl:variable name="f" select="key('finding', @finding)"/>
    <xsl:variable name="total" select="$f/value[@name = current()/@total]/@text"/>
    <xsl:variable name="ceiling" select="$f/value[@name = current()/@ceiling]/@text"/>
    <tr>
      <th scope="row">
        <xsl:choose>
          <xsl:when test="$first"><xsl:value-of select="$root/people/person[@path = current()/@person]/@label"/></xsl:when>
          <xsl:otherwise><span class="away"><xsl:value-of select="$root/people/person[@path = current()/@person]/@label"/></span></xsl:otherwise>
        </xsl:choose>
      </th>
      <td><xsl:value-of select="$f/@title"/><xsl:value-of select="substring-after(@total, 'total')"/>
        <xsl:if test="@day">, <xsl:value-of select="$root/schedule/day[@path = current()/@day]/@date"/></xsl:if>
        <xsl:text> </xsl:text><a class="quiet" href="#{@finding}"><xsl:value-of select="@finding"/></a></td>
      <td class="n"><xsl:value-of select="$total"/></td>
      <td class="n"><xsl:value-of select="$ceiling"/></td>
      <td class="bars">
        <xsl:variable name="edge" select="@at * $bar-long div 1000"/>
        <svg class="drawn-bar" viewBox="0 0 {$bar-long} {$bar-high}" width="{$bar-long}" height="{$bar-high}" role="img"
             aria-label="{concat($total, ' ', $w[@id = 'of'], ' ', $ceiling)}">
          <rect x="0.5" y="3.5" width="{$edge - 1}" height="9" fill="{$paper}" stroke="{$line}" stroke-width="0.8"/>
          <xsl:call-template name="strokes">
            <xsl:with-param name="x" select="$edge"/><xsl:with-param name="to" select="$bar-long"/><xsl:with-param name="y" select="3.5"/><xsl:with-param name="high" select="9"/>
          </xsl:call-template>
          <rect x="0" y="5" width="{@lo * $bar-long div 1000}" height="6" fill="{$ink}"/>
          <xsl:if test="@hi - @lo &gt; 3">
            <rect x="{@lo * $bar-long div 1000}" y="5.5" width="{(@hi - @lo) * $bar-long div 1000}" height="5" fill="{$paper}" stroke="{$ink}" stroke-dasharray="2 2"/>
          </xsl:if>
          <path d="M{$edge} 0V{$bar-high}" stroke="{$ink}" stroke-width="2"/>
        </svg>
      </td>
    </tr>
  </xsl:template>
</xsl:stylesheet>
