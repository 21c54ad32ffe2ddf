<?xml version="1.0" encoding="UTF-8"?>
<!-- The register: a row for each finding and duty, a column for what is asked of
     all of them. How a cell is written is for who imports this to say
     (register-csv.xsl, register-ods.xsl). No personal facts. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">
  <xsl:include href="words.xsl"/>

  <xsl:key name="task" match="/assessment/schedule/day/task" use="@path"/>
  <xsl:key name="band" match="/assessment/matrix/band" use="@id"/>

  <xsl:template match="finding | duty" mode="row">
    <xsl:variable name="f" select="."/>
    <xsl:for-each select="$columns">
      <xsl:variable name="id" select="@id"/>
      <xsl:call-template name="cell">
        <xsl:with-param name="last" select="position() = last()"/>
        <xsl:with-param name="number" select="@number = 'yes'"/>
        <xsl:with-param name="text"><xsl:for-each select="$f"><xsl:call-template name="column"><xsl:with-param name="id" select="$id"/></xsl:call-template></xsl:for-each></xsl:with-param>
      </xsl:call-template>
    </xsl:for-each>
  </xsl:template>

  <!-- What stands in a column, as text; nothing where it does not apply. -->
  <xsl:template name="column">
    <xsl:param name="id"/>
    <xsl:choose>
      <xsl:when test="$id = 'id'"><xsl:value-of select="@id"/></xsl:when>
      <xsl:when test="$id = 'kind'"><xsl:value-of select="@word"/><xsl:if test="self::duty">duty</xsl:if></xsl:when>
      <xsl:when test="$id = 'title'"><xsl:value-of select="@title"/></xsl:when>
      <xsl:when test="$id = 'about'"><xsl:call-template name="about"/></xsl:when>
      <xsl:when test="$id = 'day'"><xsl:value-of select="key('task', @task)/../@date"/><xsl:if test="not(@task)"><xsl:value-of select="@day"/></xsl:if></xsl:when>
      <xsl:when test="$id = 'task'"><xsl:value-of select="key('task', @task)/@title"/></xsl:when>
      <xsl:when test="$id = 'site'"><xsl:value-of select="@site"/></xsl:when>
      <xsl:when test="$id = 'because'"><xsl:call-template name="reason"/></xsl:when>
      <xsl:when test="$id = 'harm'"><xsl:value-of select="@harm"/></xsl:when>
      <xsl:when test="$id = 'who'"><xsl:value-of select="@who"/></xsl:when>
      <xsl:when test="$id = 'state'"><xsl:call-template name="state"/></xsl:when>
      <xsl:when test="$id = 'described'"><xsl:value-of select="score[@as = 'described']/@worst"/></xsl:when>
      <xsl:when test="$id = 'likelihood'"><xsl:value-of select="score[@as = 'in-place']/@worst-likelihood"/></xsl:when>
      <xsl:when test="$id = 'severity'"><xsl:value-of select="score[@as = 'in-place']/@worst-severity"/></xsl:when>
      <xsl:when test="$id = 'in-place'"><xsl:value-of select="score[@as = 'in-place']/@worst"/></xsl:when>
      <xsl:when test="$id = 'band'"><xsl:value-of select="key('band', score[@as = 'in-place']/@worst-band)/@word"/></xsl:when>
      <xsl:when test="$id = 'above'"><xsl:value-of select="key('band', score[@as = 'in-place']/@worst-band)/@above"/></xsl:when>
      <xsl:when test="$id = 'best'"><xsl:value-of select="score[@as = 'in-place']/@best"/></xsl:when>
      <xsl:when test="$id = 'planned'"><xsl:value-of select="score[@as = 'planned']/@worst"/></xsl:when>
      <xsl:when test="$id = 'controls-in-place'"><xsl:call-template name="controls-so"><xsl:with-param name="state" select="'in-place'"/></xsl:call-template></xsl:when>
      <xsl:when test="$id = 'controls-planned'"><xsl:call-template name="controls-so"><xsl:with-param name="state" select="'planned'"/></xsl:call-template></xsl:when>
      <xsl:when test="$id = 'unknown'"><xsl:for-each select="rests[@state = 'unknown']"><xsl:if test="position() &gt; 1">; </xsl:if><xsl:value-of select="@title"/></xsl:for-each></xsl:when>
      <xsl:when test="$id = 'waiver'"><xsl:if test="@waived-by"><xsl:value-of select="concat(@waived-by, ', ', $w[@id = 'until'], ' ', @waived-until)"/></xsl:if></xsl:when>
      <xsl:when test="$id = 'instrument'"><xsl:value-of select="@instrument"/><xsl:if test="@section"><xsl:value-of select="concat(', ', @section)"/></xsl:if></xsl:when>
      <xsl:when test="$id = 'rule'"><xsl:value-of select="@rule"/><xsl:if test="not(@discreet = 'yes')"><xsl:value-of select="concat(' ', @pack, '/', @file, ':', @line)"/></xsl:if></xsl:when>
      <xsl:when test="$id = 'sources'"><xsl:for-each select="source"><xsl:if test="position() &gt; 1">; </xsl:if><xsl:value-of select="."/></xsl:for-each></xsl:when>
    </xsl:choose>
  </xsl:template>

  <xsl:template name="state">
    <xsl:choose>
      <xsl:when test="self::duty"><xsl:value-of select="$w[@id = concat('duty-', current()/@state-in-place)]"/>
        <xsl:if test="not(@state-in-place)"><xsl:value-of select="$w[@id = concat('duty-', current()/@state)]"/></xsl:if></xsl:when>
      <xsl:otherwise><xsl:value-of select="$w[@id = concat('state-', current()/score[@as = 'in-place']/@state)]"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <!-- Nobody is named beside a finding that rests on something personal. -->
  <xsl:template name="about">
    <xsl:choose>
      <xsl:when test="(because | value | condition | when)/@withheld or rests[@sees = 'confidential'][not(@state = 'unknown')]">
        <xsl:value-of select="@who"/><xsl:if test="not(@who)"><xsl:value-of select="$w[@id = 'hidden-person']"/></xsl:if>
      </xsl:when>
      <xsl:otherwise><xsl:value-of select="@subject-label"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <xsl:template name="reason">
    <xsl:variable name="text" select="string(because[1])"/>
    <xsl:choose>
      <xsl:when test="because[1]/@withheld"><xsl:value-of select="because[1]/@withheld"/></xsl:when>
      <xsl:when test="rests[@sees = 'confidential'][string-length(@text) &gt; 3][contains($text, @text)]"><xsl:value-of select="$w[@id = 'hidden-reason']"/></xsl:when>
      <xsl:otherwise><xsl:value-of select="$text"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <xsl:template name="controls-so">
    <xsl:param name="state"/>
    <xsl:for-each select="control[@state = $state]"><xsl:if test="position() &gt; 1">; </xsl:if><xsl:value-of select="@title"/></xsl:for-each>
  </xsl:template>
</xsl:stylesheet>
