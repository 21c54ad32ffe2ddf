<?xml version="1.0" encoding="UTF-8"?>
<!-- The days: who is in the water when, drawn and as a table, and each person's totals. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">

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
          <xsl:call-template name="day-lanes"/>
          <xsl:call-template name="totals"/>
        </div>
      </xsl:for-each>
      <xsl:call-template name="totals-and-ceilings"/>
    </section>
  </xsl:template>

  <!-- ===== tables ===== -->

  <xsl:template name="totals">
    <xsl:if test="total">
      <div class="scroll" tabindex="0" role="group" aria-label="{$w[@id = 'totals']}, {@words}">
      <table class="in-the-water">
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
                      <xsl:if test="name() = 'takes'"><xsl:text> </xsl:text><xsl:call-template name="word-for"><xsl:with-param name="n" select="."/><xsl:with-param name="id" select="'in-takes'"/></xsl:call-template></xsl:if>
                    </xsl:for-each></span>
                </xsl:for-each>
                <xsl:for-each select="../record[@person = $p]">
                  <span class="item quiet"><xsl:value-of select="concat($w[@id = 'key-record'], $colon, @down, '–', @up)"/>
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
