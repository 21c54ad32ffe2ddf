<?xml version="1.0" encoding="UTF-8"?>
<!-- The register over many assessments in plain text for a terminal: lines of a head, a tab and a
     text that whoever prints it folds under the head. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">
  <xsl:import href="book-parts.xsl"/>
  <xsl:output method="text" encoding="UTF-8"/>
  <xsl:variable name="named" select="6"/>

  <xsl:template name="line">
    <xsl:param name="head" select="'    '"/>
    <xsl:param name="text"/>
    <xsl:value-of select="concat($head, '&#9;', normalize-space($text), '&#10;')"/>
  </xsl:template>

  <xsl:template name="part">
    <xsl:param name="id"/>
    <xsl:value-of select="concat('&#9;&#10;&#9;', $b[@id = $id], '&#10;')"/>
  </xsl:template>

  <xsl:template match="/book">
    <xsl:call-template name="line"><xsl:with-param name="head" select="''"/><xsl:with-param name="text">
      <xsl:value-of select="concat($b[@id = 'book'], ': ')"/>
      <xsl:call-template name="number-of"><xsl:with-param name="id" select="'assessments'"/><xsl:with-param name="n" select="@read"/></xsl:call-template>
      <xsl:if test="@on"><xsl:value-of select="concat(', ', $b[@id = 'as-of'], ' ', @on)"/></xsl:if>
      <xsl:text>; </xsl:text>
      <xsl:call-template name="number-of"><xsl:with-param name="id" select="'unread'"/><xsl:with-param name="n" select="@unread"/></xsl:call-template>
    </xsl:with-param></xsl:call-template>
    <xsl:if test="not(@on)"><xsl:call-template name="line"><xsl:with-param name="head" select="''"/><xsl:with-param name="text" select="$b[@id = 'no-day']"/></xsl:call-template></xsl:if>
    <xsl:call-template name="part"><xsl:with-param name="id" select="'first'"/></xsl:call-template>
    <xsl:apply-templates select="reason"/>
    <xsl:if test="not(reason)"><xsl:call-template name="line"><xsl:with-param name="text" select="$b[@id = 'nothing-first']"/></xsl:call-template></xsl:if>
    <xsl:if test="assessment"><xsl:call-template name="part"><xsl:with-param name="id" select="'register'"/></xsl:call-template></xsl:if>
    <xsl:apply-templates select="assessment"/>
    <xsl:if test="unread"><xsl:call-template name="part"><xsl:with-param name="id" select="'unread-head'"/></xsl:call-template></xsl:if>
    <xsl:for-each select="unread">
      <xsl:call-template name="line"><xsl:with-param name="head" select="'  '"/><xsl:with-param name="text" select="concat(@file, substring(concat(':', @line), 1, 9 * boolean(@line)), ': ', @reason)"/></xsl:call-template>
    </xsl:for-each>
    <!-- After an assessment there is a blank line already. -->
    <xsl:if test="unread or not(assessment)"><xsl:text>&#9;&#10;</xsl:text></xsl:if>
    <xsl:call-template name="line"><xsl:with-param name="head" select="''"/><xsl:with-param name="text" select="$b[@id = 'caution']"/></xsl:call-template>
  </xsl:template>

  <!-- Why, and the first of those it holds for, each with its number. -->
  <xsl:template match="/book/reason">
    <xsl:variable name="why" select="@reason"/>
    <xsl:variable name="all" select="key('because', $why)"/>
    <xsl:call-template name="line">
      <xsl:with-param name="head" select="'  '"/>
      <xsl:with-param name="text">
        <xsl:value-of select="concat($b[@id = concat('reason-', $why)], ': ')"/>
        <xsl:call-template name="number-of"><xsl:with-param name="id" select="'assessments'"/><xsl:with-param name="n" select="@assessments"/></xsl:call-template>
      </xsl:with-param>
    </xsl:call-template>
    <xsl:call-template name="line"><xsl:with-param name="text">
      <xsl:for-each select="$all[position() &lt;= $named]">
        <xsl:if test="position() &gt; 1">; </xsl:if>
        <xsl:call-template name="name-of"/><xsl:value-of select="concat(' (', reason[@reason = $why]/@n, ')')"/>
      </xsl:for-each>
      <xsl:call-template name="and-more"/>
    </xsl:with-param></xsl:call-template>
  </xsl:template>

  <xsl:template match="assessment">
    <xsl:call-template name="line">
      <xsl:with-param name="head" select="'  '"/>
      <xsl:with-param name="text">
        <xsl:call-template name="name-of"/>
        <xsl:if test="@reference"><xsl:value-of select="concat(', ', @reference)"/></xsl:if>
        <xsl:text>, </xsl:text><xsl:call-template name="edition"/>
      </xsl:with-param>
    </xsl:call-template>
    <xsl:call-template name="line"><xsl:with-param name="text" select="@file"/></xsl:call-template>
    <xsl:call-template name="line"><xsl:with-param name="text">
      <xsl:if test="@jurisdiction"><xsl:value-of select="concat(@jurisdiction, '; ')"/></xsl:if>
      <xsl:if test="@places"><xsl:value-of select="concat(@places, '; ')"/></xsl:if>
      <xsl:value-of select="concat($b[@id = 'version'], ' ', @tankside)"/>
      <xsl:if test="not(signature)"><xsl:value-of select="concat('; ', $b[@id = 'signed-unsigned'])"/></xsl:if>
    </xsl:with-param></xsl:call-template>
    <xsl:for-each select="signature">
      <xsl:call-template name="line"><xsl:with-param name="head" select="concat('    ', $b[@id = 'signed'], ': ')"/><xsl:with-param name="text"><xsl:call-template name="signer"/></xsl:with-param></xsl:call-template>
    </xsl:for-each>
    <xsl:call-template name="line"><xsl:with-param name="text"><xsl:call-template name="stands"/></xsl:with-param></xsl:call-template>
    <xsl:call-template name="line"><xsl:with-param name="text"><xsl:call-template name="in-the-water"/></xsl:with-param></xsl:call-template>
    <xsl:for-each select="failure | lapse[@entity != 'waiver'] | waiver | unusual">
      <xsl:call-template name="line"><xsl:with-param name="head" select="'    · '"/><xsl:with-param name="text"><xsl:apply-templates select="."/></xsl:with-param></xsl:call-template>
    </xsl:for-each>
    <xsl:text>&#9;&#10;</xsl:text>
  </xsl:template>

  <xsl:template name="stands">
    <xsl:call-template name="number-of"><xsl:with-param name="id" select="'stops'"/><xsl:with-param name="n" select="@stops"/></xsl:call-template>
    <xsl:value-of select="concat(', ', @above, ' ', translate($b[@id = 'above'], 'A', 'a'), '; ', translate($b[@id = 'duties'], 'D', 'd'), ' ', @duties_not_met, ' ', $b[@id = 'not-met'], ', ', @duties_open, ' ', $b[@id = 'open'], '; ')"/>
    <xsl:call-template name="number-of"><xsl:with-param name="id" select="'questions'"/><xsl:with-param name="n" select="@open_facts"/></xsl:call-template>
    <xsl:if test="@facts_with_evidence">
      <xsl:value-of select="concat('; ', @facts_with_evidence, ' ', $b[@id = 'of'], ' ', @facts, ' ', $b[@id = 'evidence'])"/>
      <xsl:if test="@oldest_evidence"><xsl:value-of select="concat(', ', $b[@id = 'oldest'], ' ', @oldest_evidence)"/></xsl:if>
    </xsl:if>
    <xsl:if test="@complete = 'no'"><xsl:value-of select="concat('; ', $b[@id = 'incomplete'])"/></xsl:if>
  </xsl:template>

  <xsl:template name="in-the-water">
    <xsl:call-template name="number-of"><xsl:with-param name="id" select="'people'"/><xsl:with-param name="n" select="@people"/></xsl:call-template>
    <xsl:text>, </xsl:text>
    <xsl:call-template name="number-of"><xsl:with-param name="id" select="'minors'"/><xsl:with-param name="n" select="@minors"/></xsl:call-template>
    <xsl:if test="@ages_unknown &gt; 0">
      <xsl:text>, </xsl:text><xsl:call-template name="number-of"><xsl:with-param name="id" select="'ages'"/><xsl:with-param name="n" select="@ages_unknown"/></xsl:call-template>
    </xsl:if>
    <xsl:text>; </xsl:text>
    <xsl:call-template name="number-of"><xsl:with-param name="id" select="'tasks'"/><xsl:with-param name="n" select="@tasks"/></xsl:call-template>
    <xsl:text> </xsl:text>
    <xsl:call-template name="number-of"><xsl:with-param name="id" select="'days'"/><xsl:with-param name="n" select="@days"/></xsl:call-template>
    <xsl:if test="@first_day"><xsl:value-of select="concat(', ', @first_day)"/><xsl:if test="@last_day != @first_day"><xsl:value-of select="concat('..', @last_day)"/></xsl:if></xsl:if>
    <xsl:text>; </xsl:text>
    <xsl:call-template name="number-of"><xsl:with-param name="id" select="'immersions'"/><xsl:with-param name="n" select="@immersions"/></xsl:call-template>
    <xsl:if test="@immersions &gt; 0">
      <xsl:text>, </xsl:text>
      <xsl:call-template name="minutes"><xsl:with-param name="low" select="@under_low"/><xsl:with-param name="high" select="@under_high"/><xsl:with-param name="unknown" select="@under_unknown"/></xsl:call-template>
      <xsl:value-of select="concat(' ', $b[@id = 'person-minutes'], ' ', translate($b[@id = 'under'], 'U', 'u'), ', ')"/>
      <xsl:call-template name="minutes"><xsl:with-param name="low" select="@wet_low"/><xsl:with-param name="high" select="@wet_high"/><xsl:with-param name="unknown" select="@wet_unknown"/></xsl:call-template>
      <xsl:value-of select="concat(' ', translate($b[@id = 'wet'], 'W', 'w'))"/>
      <xsl:value-of select="concat(', ', translate($b[@id = 'deepest'], 'D', 'd'), ' ')"/><xsl:call-template name="deepest"/>
    </xsl:if>
  </xsl:template>
</xsl:stylesheet>
