<?xml version="1.0" encoding="UTF-8"?>
<!-- The full assessment: everything the assessment says, so that a reviewer can
     redo each score from the paper alone. The parts stand in files of their own;
     this one puts them in order. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">
  <xsl:import href="common.xsl"/>
  <xsl:include href="cover.xsl"/>
  <xsl:include href="aids.xsl"/>
  <xsl:include href="chart-parts.xsl"/>
  <xsl:include href="chart-matrix.xsl"/>
  <xsl:include href="chart-margins.xsl"/>
  <xsl:include href="chart-day.xsl"/>
  <xsl:include href="chart-totals.xsl"/>
  <xsl:include href="chart-gas.xsl"/>
  <xsl:include href="chart-emergency.xsl"/>
  <xsl:include href="matrix.xsl"/>
  <xsl:include href="finding.xsl"/>
  <xsl:include href="changes.xsl"/>
  <xsl:include href="days.xsl"/>
  <xsl:include href="registers.xsl"/>
  <xsl:include href="rules.xsl"/>

  <xsl:variable name="aids" select="true()"/>

  <xsl:key name="by-rule" match="finding | duty" use="@rule"/>
  <xsl:key name="by-function" match="function" use="@name"/>
  <xsl:key name="open-at" match="/assessment/open-facts/fact" use="@path"/>

  <!-- In which section a finding stands: all of a section by its name, and each of them by its rule, so
       that no place has to look through all findings. Bands by their ids: a key may use no variable. -->
  <xsl:key name="in" match="finding[@word = 'stop']" use="concat('stops ', @rule)"/>
  <xsl:key name="in" match="finding[@word = 'note']" use="concat('notes ', @rule)"/>
  <xsl:key name="in" match="finding[@word = 'hazard'][score[@as = 'in-place']/@worst-band = /assessment/matrix/band[@above = 'yes']/@id]"
    use="concat('above ', @rule)"/>
  <xsl:key name="in" match="finding[@word = 'hazard'][not(score[@as = 'in-place']/@worst-band = /assessment/matrix/band[@above = 'yes']/@id)]"
    use="concat('below ', @rule)"/>

  <!-- Where a finding is filed: with its task, else with people, a day, a site, the production. -->
  <xsl:key name="place" match="finding[@task]" use="concat('task ', @task)"/>
  <xsl:key name="place" match="finding[not(@task)][@entity = 'person' or @entity = 'person-day']" use="'people'"/>
  <xsl:key name="place" match="finding[not(@task)][@entity = 'day']" use="'days'"/>
  <xsl:key name="place" match="finding[not(@task)][not(@entity = 'person' or @entity = 'person-day' or @entity = 'day')][@site]"
    use="concat('site ', @site)"/>
  <xsl:key name="place" match="finding[not(@task)][not(@entity = 'person' or @entity = 'person-day' or @entity = 'day')][not(@site)]"
    use="'production'"/>

  <xsl:variable name="all" select="/assessment/findings/finding"/>
  <xsl:variable name="stops" select="$all[@word = 'stop']"/>
  <xsl:variable name="notes" select="$all[@word = 'note']"/>
  <xsl:variable name="hazards" select="$all[@word = 'hazard']"/>
  <xsl:variable name="high" select="$hazards[score[@as = 'in-place']/@worst-band = $above]"/>
  <xsl:variable name="low" select="$hazards[not(score[@as = 'in-place']/@worst-band = $above)]"/>
  <!-- Whether there is any: the sets themselves are long, and to join them takes the product of their lengths. -->
  <xsl:variable name="personal" select="boolean(/assessment/subjects/subject/fact[@sees = 'confidential'][not(@state = 'unknown')])
    or boolean(//fact[@sees = 'confidential'][not(@state = 'unknown')]) or boolean(//rests[@sees = 'confidential'][not(@state = 'unknown')]) or boolean(//@withheld)"/>

  <xsl:template match="assessment" mode="title">
    <xsl:value-of select="concat($w[@id = 'assessment'], ' · ', production/@title)"/>
  </xsl:template>

  <xsl:template match="assessment" mode="body">
    <xsl:call-template name="cover"/>
    <xsl:call-template name="contents"/>
    <main id="content">
      <xsl:call-template name="tasks"/>
      <xsl:call-template name="limits"/>
      <xsl:call-template name="matrices"/>
      <xsl:call-template name="edges"/>
      <xsl:call-template name="findings-of">
        <xsl:with-param name="set" select="$stops"/><xsl:with-param name="id" select="'stops'"/>
      </xsl:call-template>
      <xsl:call-template name="findings-of">
        <xsl:with-param name="set" select="$high"/><xsl:with-param name="id" select="'above'"/>
      </xsl:call-template>
      <xsl:call-template name="findings-of">
        <xsl:with-param name="set" select="$low"/><xsl:with-param name="id" select="'below'"/>
      </xsl:call-template>
      <xsl:if test="$notes">
        <xsl:call-template name="findings-of">
          <xsl:with-param name="set" select="$notes"/><xsl:with-param name="id" select="'notes'"/>
        </xsl:call-template>
      </xsl:if>
      <xsl:call-template name="duties"/>
      <xsl:call-template name="days"/>
      <xsl:call-template name="gas"/>
      <xsl:call-template name="emergency-time-lines"/>
      <xsl:call-template name="controls"/>
      <xsl:call-template name="open-facts"/>
      <xsl:call-template name="waivers"/>
      <xsl:call-template name="looked-at"/>
      <xsl:call-template name="reliance"/>
      <xsl:call-template name="facts"/>
      <xsl:call-template name="evidence"/>
      <xsl:call-template name="rules"/>
      <xsl:call-template name="scales"/>
      <xsl:call-template name="inputs"/>
      <xsl:call-template name="sign-off"/>
    </main>
    <footer class="paper-foot">
      <p class="caution"><xsl:value-of select="$w[@id = 'caution']"/></p>
      <p class="quiet"><xsl:value-of select="$w[@id = 'written-by']"/><xsl:text> </xsl:text><xsl:value-of select="@tankside"/></p>
    </footer>
  </xsl:template>

  <!-- The sections in order; the heads, the contents and their numbers come from here. -->
  <xsl:variable name="sections" select="$all-sections[not(@for)][not(@id = 'notes') or $notes][not(@id = 'gas') or $root/charts/curve][not(@id = 'rescue') or $root/rescue/step/@assumed = 'no']"/>

  <xsl:template name="section-head">
    <xsl:param name="id"/>
    <xsl:variable name="s" select="$sections[@id = $id]"/>
    <h2 id="{$id}">
      <span class="no"><xsl:for-each select="$sections"><xsl:if test="@id = $id"><xsl:value-of select="position()"/></xsl:if></xsl:for-each></span>
      <xsl:text> </xsl:text><xsl:value-of select="$s/@title"/>
    </h2>
    <xsl:if test="string($s) != ''"><p class="lead"><xsl:value-of select="$s"/></p></xsl:if>
  </xsl:template>

  <!-- ===== sections that are drawings ===== -->

  <xsl:template name="edges">
    <section aria-labelledby="edges">
      <xsl:call-template name="section-head"><xsl:with-param name="id" select="'edges'"/></xsl:call-template>
      <xsl:call-template name="margin-bars"/>
    </section>
  </xsl:template>

  <xsl:template name="gas">
    <xsl:if test="charts/curve">
      <section aria-labelledby="gas">
        <xsl:call-template name="section-head"><xsl:with-param name="id" select="'gas'"/></xsl:call-template>
        <xsl:call-template name="gas-over-time"/>
      </section>
    </xsl:if>
  </xsl:template>

  <xsl:template name="emergency-time-lines">
    <xsl:if test="rescue/step/@assumed = 'no'">
      <section aria-labelledby="rescue">
        <xsl:call-template name="section-head"><xsl:with-param name="id" select="'rescue'"/></xsl:call-template>
        <xsl:call-template name="emergency-lines"/>
      </section>
    </xsl:if>
  </xsl:template>

  <xsl:template name="nothing">
    <p><xsl:value-of select="$w[@id = 'none']"/></p>
  </xsl:template>
</xsl:stylesheet>
