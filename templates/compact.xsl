<?xml version="1.0" encoding="UTF-8"?>
<!-- A RELAX NG schema in its compact syntax, from its XML syntax: as much of it as
     `tankside vocabulary` writes. Some editors read the one, some the other. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform"
  xmlns:r="http://relaxng.org/ns/structure/1.0"
  xmlns:a="http://relaxng.org/ns/compatibility/annotations/1.0">
  <xsl:output method="text" encoding="UTF-8"/>
  <xsl:strip-space elements="*"/>

  <xsl:template match="r:grammar">
    <xsl:value-of select="concat('#', preceding-sibling::comment(), '&#10;')"/>
    <xsl:text>datatypes xsd = "http://www.w3.org/2001/XMLSchema-datatypes"&#10;</xsl:text>
    <xsl:apply-templates/>
  </xsl:template>

  <xsl:template match="r:start">
    <xsl:text>&#10;start =</xsl:text>
    <xsl:call-template name="all"/>
    <xsl:text>&#10;</xsl:text>
  </xsl:template>

  <!-- A backslash before a name keeps it apart from the words of the syntax itself. -->
  <xsl:template match="r:define">
    <xsl:value-of select="concat('&#10;\', @name, ' =')"/>
    <xsl:call-template name="all"/>
    <xsl:text>&#10;</xsl:text>
  </xsl:template>

  <xsl:template match="r:element | r:attribute">
    <xsl:apply-templates select="a:documentation"/>
    <xsl:value-of select="concat('&#10;', local-name(), ' ', @name, ' {')"/>
    <xsl:call-template name="all"/>
    <xsl:text>}</xsl:text>
  </xsl:template>

  <xsl:template match="a:documentation"><xsl:value-of select="concat('&#10;## ', normalize-space())"/></xsl:template>

  <xsl:template match="r:ref"><xsl:value-of select="concat(' \', @name)"/></xsl:template>
  <xsl:template match="r:text"> text </xsl:template>
  <xsl:template match="r:value"><xsl:value-of select="concat(' &quot;', ., '&quot;')"/></xsl:template>

  <xsl:template match="r:data">
    <xsl:value-of select="concat(' xsd:', @type)"/>
    <xsl:if test="r:param">
      <xsl:text> {</xsl:text>
      <xsl:for-each select="r:param"><xsl:value-of select="concat(' ', @name, ' = &quot;', ., '&quot;')"/></xsl:for-each>
      <xsl:text> }</xsl:text>
    </xsl:if>
    <xsl:apply-templates select="r:except"/>
  </xsl:template>
  <xsl:template match="r:except">
    <xsl:text> - (</xsl:text>
    <xsl:call-template name="all"><xsl:with-param name="between" select="' |'"/></xsl:call-template>
    <xsl:text>)</xsl:text>
  </xsl:template>

  <xsl:template match="r:optional | r:zeroOrMore | r:oneOrMore | r:choice | r:interleave | r:group">
    <xsl:text> (</xsl:text>
    <xsl:choose>
      <xsl:when test="self::r:choice">
        <xsl:call-template name="all"><xsl:with-param name="between" select="' |'"/></xsl:call-template>
      </xsl:when>
      <xsl:when test="self::r:interleave">
        <xsl:call-template name="all"><xsl:with-param name="between" select="' &amp;'"/></xsl:call-template>
      </xsl:when>
      <xsl:otherwise><xsl:call-template name="all"/></xsl:otherwise>
    </xsl:choose>
    <xsl:text>)</xsl:text>
    <xsl:if test="self::r:optional">?</xsl:if>
    <xsl:if test="self::r:zeroOrMore">*</xsl:if>
    <xsl:if test="self::r:oneOrMore">+</xsl:if>
  </xsl:template>

  <xsl:template name="all">
    <xsl:param name="between" select="','"/>
    <xsl:variable name="parts" select="*[not(self::a:documentation)]"/>
    <xsl:for-each select="$parts">
      <xsl:if test="position() &gt; 1"><xsl:value-of select="$between"/></xsl:if>
      <xsl:apply-templates select="."/>
    </xsl:for-each>
    <xsl:if test="not($parts)"> empty </xsl:if>
  </xsl:template>

  <!-- What it does not know would be lost without a word. -->
  <xsl:template match="*">
    <xsl:message terminate="yes">no compact form for <xsl:value-of select="name()"/></xsl:message>
  </xsl:template>
</xsl:stylesheet>
