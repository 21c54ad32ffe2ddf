<?xml version="1.0" encoding="UTF-8"?>
<!-- Cells of CSV (RFC 4180): every field in quotes, CR LF. A field that a spreadsheet would take
     for a formula begins with an apostrophe. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">

  <xsl:template name="cell">
    <xsl:param name="text"/>
    <xsl:param name="last"/>
    <xsl:variable name="plain" select="normalize-space($text)"/>
    <xsl:text>"</xsl:text>
    <xsl:if test="contains('=+-@|%＝＋－＠', substring($plain, 1, 1)) and $plain != ''">'</xsl:if>
    <xsl:call-template name="doubled"><xsl:with-param name="text" select="$plain"/></xsl:call-template>
    <xsl:text>"</xsl:text>
    <xsl:choose><xsl:when test="$last"><xsl:text>&#13;&#10;</xsl:text></xsl:when><xsl:otherwise>,</xsl:otherwise></xsl:choose>
  </xsl:template>

  <xsl:template name="doubled">
    <xsl:param name="text"/>
    <xsl:choose>
      <xsl:when test="contains($text, '&quot;')">
        <xsl:value-of select="concat(substring-before($text, '&quot;'), '&quot;&quot;')"/>
        <xsl:call-template name="doubled"><xsl:with-param name="text" select="substring-after($text, '&quot;')"/></xsl:call-template>
      </xsl:when>
      <xsl:otherwise><xsl:value-of select="$text"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>
</xsl:stylesheet>
