<?xml version="1.0" encoding="UTF-8"?>
<!-- The register over many assessments as CSV: one row each, then what was not read, then the caution. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">
  <xsl:import href="book-parts.xsl"/>
  <xsl:include href="csv.xsl"/>
  <xsl:output method="text" encoding="UTF-8"/>

  <xsl:template match="/book">
    <xsl:for-each select="$columns-of-book">
      <xsl:call-template name="cell"><xsl:with-param name="text" select="@title"/><xsl:with-param name="last" select="position() = last()"/></xsl:call-template>
    </xsl:for-each>
    <xsl:for-each select="assessment">
      <xsl:variable name="row" select="."/>
      <xsl:for-each select="$columns-of-book">
        <xsl:variable name="value" select="$row/@*[name() = current()/@id]"/>
        <xsl:call-template name="cell">
          <xsl:with-param name="last" select="position() = last()"/>
          <xsl:with-param name="text">
            <xsl:choose>
              <xsl:when test="@id = 'signed'"><xsl:value-of select="$b[@id = concat('signed-', $value)]"/></xsl:when>
              <xsl:otherwise><xsl:value-of select="$value"/></xsl:otherwise>
            </xsl:choose>
          </xsl:with-param>
        </xsl:call-template>
      </xsl:for-each>
    </xsl:for-each>
    <xsl:for-each select="unread">
      <xsl:call-template name="note"><xsl:with-param name="file" select="@file"/><xsl:with-param name="text" select="concat($b[@id = 'unread-head'], ': ', @reason)"/></xsl:call-template>
    </xsl:for-each>
    <xsl:call-template name="note"><xsl:with-param name="file" select="'caution'"/><xsl:with-param name="text" select="$b[@id = 'caution']"/></xsl:call-template>
  </xsl:template>

  <!-- A record that is no assessment: its file, and the text where titles stand. -->
  <xsl:template name="note">
    <xsl:param name="file"/>
    <xsl:param name="text"/>
    <xsl:for-each select="$columns-of-book">
      <xsl:call-template name="cell">
        <xsl:with-param name="last" select="position() = last()"/>
        <xsl:with-param name="text"><xsl:choose>
          <xsl:when test="@id = 'file'"><xsl:value-of select="$file"/></xsl:when>
          <xsl:when test="@id = 'title'"><xsl:value-of select="$text"/></xsl:when>
        </xsl:choose></xsl:with-param>
      </xsl:call-template>
    </xsl:for-each>
  </xsl:template>
</xsl:stylesheet>
