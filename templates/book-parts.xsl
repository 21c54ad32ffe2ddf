<?xml version="1.0" encoding="UTF-8"?>
<!-- A book in words, as its text and its page both have them. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">
  <xsl:variable name="b" select="document('book-words.xml')/words/*[not(self::column)]"/>
  <xsl:variable name="columns-of-book" select="document('book-words.xml')/words/column"/>
  <xsl:key name="because" match="/book/assessment" use="reason/@reason"/>

  <xsl:template name="number-of">
    <xsl:param name="id"/>
    <xsl:param name="n"/>
    <xsl:variable name="c" select="$b[@id = $id]"/>
    <xsl:choose>
      <xsl:when test="$n = 0"><xsl:value-of select="$c/@none"/></xsl:when>
      <xsl:when test="$n = 1"><xsl:value-of select="$c/@one"/></xsl:when>
      <xsl:otherwise><xsl:value-of select="concat(substring-before($c/@many, '{n}'), $n, substring-after($c/@many, '{n}'))"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <!-- After the first of those a reason holds for: how many more. -->
  <xsl:template name="and-more">
    <xsl:if test="@assessments &gt; $named">
      <xsl:text>; </xsl:text><xsl:call-template name="number-of"><xsl:with-param name="id" select="'more'"/><xsl:with-param name="n" select="@assessments - $named"/></xsl:call-template>
    </xsl:if>
  </xsl:template>

  <!-- "24", or "24..31" where the dossier leaves it open. -->
  <xsl:template name="range">
    <xsl:param name="low"/>
    <xsl:param name="high"/>
    <xsl:value-of select="number($low)"/>
    <xsl:if test="$low != $high"><xsl:value-of select="concat('..', number($high))"/></xsl:if>
  </xsl:template>

  <!-- Person-minutes; and how many immersions they are without. -->
  <xsl:template name="minutes">
    <xsl:param name="low"/>
    <xsl:param name="high"/>
    <xsl:param name="unknown"/>
    <xsl:choose>
      <xsl:when test="@immersions &gt; 0 and $unknown = @immersions"><xsl:value-of select="$b[@id = 'not-known']"/></xsl:when>
      <xsl:otherwise>
        <xsl:call-template name="range"><xsl:with-param name="low" select="$low"/><xsl:with-param name="high" select="$high"/></xsl:call-template>
        <xsl:if test="$unknown &gt; 0"><xsl:value-of select="concat(' (', $b[@id = 'some-not-known'], ' ', $unknown, ')')"/></xsl:if>
      </xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <xsl:template name="deepest">
    <xsl:choose>
      <xsl:when test="not(@deepest) and @immersions &gt; 0"><xsl:value-of select="$b[@id = 'not-known']"/></xsl:when>
      <xsl:when test="not(@deepest)">–</xsl:when>
      <xsl:otherwise>
        <xsl:value-of select="concat(number(@deepest), ' m')"/>
        <xsl:if test="@depth_unknown &gt; 0"><xsl:value-of select="concat(' (', $b[@id = 'some-not-known'], ' ', @depth_unknown, ')')"/></xsl:if>
      </xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <!-- "The Weir, second block"; the file where no title is stated. -->
  <xsl:template name="name-of">
    <xsl:value-of select="@title"/><xsl:if test="not(@title)"><xsl:value-of select="@file"/></xsl:if>
  </xsl:template>

  <!-- "revision 3 of 2027-03-08" -->
  <xsl:template name="edition">
    <xsl:if test="@revision"><xsl:value-of select="concat($b[@id = 'revision'], ' ', @revision)"/></xsl:if>
    <xsl:if test="@on_day"><xsl:value-of select="concat(' ', $b[@id = 'of'], ' ', @on_day)"/></xsl:if>
  </xsl:template>

  <xsl:template name="signer">
    <xsl:value-of select="@who"/><xsl:if test="not(@who)"><xsl:value-of select="$b[@id = 'somebody']"/></xsl:if>
    <xsl:if test="@as_whom"><xsl:value-of select="concat(', ', @as_whom)"/></xsl:if>
    <xsl:if test="@on_day"><xsl:value-of select="concat(', ', @on_day)"/></xsl:if>
    <xsl:value-of select="concat(': ', $b[@id = concat('signed-', current()/@state)])"/>
  </xsl:template>

  <!-- What is to be said of an assessment besides its figures; one text each. That a waiver has
       lapsed stands with the waiver. -->
  <xsl:template match="lapse">
    <xsl:choose>
      <xsl:when test="@state = 'lapsed'"><xsl:value-of select="$b[@id = 'reason-lapsed']"/></xsl:when>
      <xsl:otherwise><xsl:value-of select="$b[@id = 'reason-lapsing']"/></xsl:otherwise>
    </xsl:choose>
    <xsl:value-of select="concat(': ', @what, ' ', @until_day, ' (', @entity, ')')"/>
  </xsl:template>

  <xsl:template match="unusual">
    <xsl:value-of select="concat($b[@id = current()/@kind], ' ', @name, ': ')"/>
    <xsl:if test="starts-with(@origin, 'not')">
      <xsl:value-of select="$b[@id = translate(current()/@origin, ' ', '-')]"/>
      <xsl:if test="@among != ''">, </xsl:if>
    </xsl:if>
    <xsl:if test="@among != ''"><xsl:value-of select="$b[@id = 'unlike-most']"/></xsl:if>
    <xsl:if test="@digest"><xsl:value-of select="concat(' (', substring(@digest, 1, 12), ')')"/></xsl:if>
  </xsl:template>

  <xsl:template match="waiver">
    <xsl:value-of select="concat($b[@id = 'waived'], ': ', @rule)"/>
    <xsl:if test="@by_whom"><xsl:value-of select="concat(', ', @by_whom)"/></xsl:if>
    <xsl:if test="@until_day"><xsl:value-of select="concat(', ', $b[@id = 'until'], ' ', @until_day)"/></xsl:if>
    <xsl:if test="@valid = 'no'"><xsl:value-of select="concat('; ', $b[@id = 'not-valid'])"/></xsl:if>
    <xsl:if test="translate(@until_day, '-', '') &lt; translate(/book/@on, '-', '')"><xsl:value-of select="concat('; ', $b[@id = 'lapsed'])"/></xsl:if>
  </xsl:template>

  <xsl:template match="failure"><xsl:value-of select="concat($b[@id = 'failed'], ': ', @rule)"/></xsl:template>
</xsl:stylesheet>
