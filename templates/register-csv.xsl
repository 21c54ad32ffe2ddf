<?xml version="1.0" encoding="UTF-8"?>
<!-- The register as CSV. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">
  <xsl:import href="register.xsl"/>
  <xsl:include href="csv.xsl"/>
  <xsl:output method="text" encoding="UTF-8"/>

  <xsl:template match="/">
    <xsl:for-each select="$columns">
      <xsl:call-template name="cell"><xsl:with-param name="text" select="@title"/><xsl:with-param name="last" select="position() = last()"/></xsl:call-template>
    </xsl:for-each>
    <!-- A row each in an element, of which only the text is printed: one text that grows with every cell
         is gone through again for each. -->
    <xsl:for-each select="assessment/findings/finding | assessment/duties/duty">
      <row><xsl:apply-templates select="." mode="row"/></row>
    </xsl:for-each>
    <xsl:call-template name="note"><xsl:with-param name="id" select="'caution'"/><xsl:with-param name="text" select="$w[@id = 'caution']"/></xsl:call-template>
    <xsl:call-template name="note"><xsl:with-param name="id" select="'digest'"/><xsl:with-param name="text" select="assessment/inputs/digest/@sha256"/></xsl:call-template>
  </xsl:template>

  <!-- A last record that is no finding: its name, and the text where titles stand. -->
  <xsl:template name="note">
    <xsl:param name="id"/>
    <xsl:param name="text"/>
    <xsl:for-each select="$columns">
      <xsl:call-template name="cell">
        <xsl:with-param name="last" select="position() = last()"/>
        <xsl:with-param name="text"><xsl:choose>
          <xsl:when test="@id = 'id'"><xsl:value-of select="$id"/></xsl:when>
          <xsl:when test="@id = 'title'"><xsl:value-of select="$text"/></xsl:when>
        </xsl:choose></xsl:with-param>
      </xsl:call-template>
    </xsl:for-each>
  </xsl:template>
</xsl:stylesheet>
