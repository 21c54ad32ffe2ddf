<?xml version="1.0" encoding="UTF-8"?>
<!-- The register as the content of an OpenDocument spreadsheet (ODF 1.3 part 3).
     Every cell says its type and none has a formula, so that nothing in it runs. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform"
    xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0"
    xmlns:style="urn:oasis:names:tc:opendocument:xmlns:style:1.0"
    xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0"
    xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0"
    xmlns:fo="urn:oasis:names:tc:opendocument:xmlns:xsl-fo-compatible:1.0">
  <xsl:import href="register.xsl"/>
  <xsl:output method="xml" encoding="UTF-8"/>

  <xsl:template match="/">
    <office:document-content office:version="1.3">
      <office:automatic-styles>
        <xsl:for-each select="$columns">
          <style:style style:name="column-{@id}" style:family="table-column"><style:table-column-properties style:column-width="{@width}mm"/></style:style>
        </xsl:for-each>
        <style:style style:name="head" style:family="table-cell">
          <style:table-cell-properties fo:border-bottom="1pt solid #16212b" fo:wrap-option="wrap" style:vertical-align="bottom"/>
          <style:text-properties fo:font-weight="bold"/>
        </style:style>
        <style:style style:name="body" style:family="table-cell"><style:table-cell-properties fo:wrap-option="wrap" style:vertical-align="top"/></style:style>
      </office:automatic-styles>
      <office:body>
        <office:spreadsheet>
          <table:table table:name="{$w[@id = 'register-short']}">
            <xsl:for-each select="$columns"><table:table-column table:style-name="column-{@id}" table:default-cell-style-name="body"/></xsl:for-each>
            <table:table-header-rows>
              <table:table-row>
                <xsl:for-each select="$columns"><table:table-cell table:style-name="head" office:value-type="string"><text:p><xsl:value-of select="@title"/></text:p></table:table-cell></xsl:for-each>
              </table:table-row>
            </table:table-header-rows>
            <xsl:for-each select="assessment/findings/finding | assessment/duties/duty">
              <table:table-row><xsl:apply-templates select="." mode="row"/></table:table-row>
            </xsl:for-each>
          </table:table>
          <table:table table:name="{$w[@id = 'register-about']}">
            <table:table-column/>
            <xsl:call-template name="line"><xsl:with-param name="text" select="assessment/production/@title"/></xsl:call-template>
            <xsl:call-template name="line"><xsl:with-param name="text" select="concat($w[@id = 'reference'], ' ', assessment/production/@reference, ', ', $w[@id = 'revision'], ' ', assessment/production/@revision)"/></xsl:call-template>
            <xsl:call-template name="line"><xsl:with-param name="text" select="$w[@id = 'caution']"/></xsl:call-template>
            <xsl:call-template name="line"><xsl:with-param name="text" select="concat($w[@id = 'digest'], ' ', assessment/inputs/digest/@sha256)"/></xsl:call-template>
          </table:table>
        </office:spreadsheet>
      </office:body>
    </office:document-content>
  </xsl:template>

  <xsl:template name="line">
    <xsl:param name="text"/>
    <table:table-row><table:table-cell office:value-type="string"><text:p><xsl:value-of select="$text"/></text:p></table:table-cell></table:table-row>
  </xsl:template>

  <xsl:template name="cell">
    <xsl:param name="text"/>
    <xsl:param name="number"/>
    <xsl:variable name="plain" select="normalize-space($text)"/>
    <xsl:choose>
      <xsl:when test="$plain = ''"><table:table-cell/></xsl:when>
      <xsl:when test="$number"><table:table-cell office:value-type="float" office:value="{$plain}"><text:p><xsl:value-of select="$plain"/></text:p></table:table-cell></xsl:when>
      <xsl:otherwise><table:table-cell office:value-type="string"><text:p><xsl:value-of select="$plain"/></text:p></table:table-cell></xsl:otherwise>
    </xsl:choose>
  </xsl:template>
</xsl:stylesheet>
