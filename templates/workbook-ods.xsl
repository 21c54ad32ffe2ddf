<?xml version="1.0" encoding="UTF-8"?>
<!-- A workbook for departments as the content of an OpenDocument spreadsheet (ODF 1.3 part 3).
     Its headings are what `tankside import` knows them by, so they stay English; every cell is a
     text, so that nothing in it runs. Cells to fill in are white, the rest is grey. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform"
    xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0"
    xmlns:style="urn:oasis:names:tc:opendocument:xmlns:style:1.0"
    xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0"
    xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0"
    xmlns:fo="urn:oasis:names:tc:opendocument:xmlns:xsl-fo-compatible:1.0">
  <xsl:output method="xml" encoding="UTF-8"/>

  <xsl:key name="width" match="column" use="@width"/>

  <xsl:template match="/workbook">
    <office:document-content office:version="1.3">
      <office:automatic-styles>
        <xsl:for-each select="sheet/column[count(. | key('width', @width)[1]) = 1]">
          <style:style style:name="w{@width}" style:family="table-column"><style:table-column-properties style:column-width="{@width}mm"/></style:style>
        </xsl:for-each>
        <style:style style:name="w160" style:family="table-column"><style:table-column-properties style:column-width="160mm"/></style:style>
        <style:style style:name="head" style:family="table-cell">
          <style:table-cell-properties fo:background-color="#16212b" fo:wrap-option="wrap" style:vertical-align="bottom"/>
          <style:text-properties fo:font-weight="bold" fo:color="#ffffff"/>
        </style:style>
        <style:style style:name="name" style:family="table-cell">
          <style:table-cell-properties fo:background-color="#eff3f5" fo:border="0.5pt solid #c3cbd2" fo:wrap-option="wrap" style:vertical-align="top"/>
          <style:text-properties fo:font-weight="bold"/>
        </style:style>
        <style:style style:name="told" style:family="table-cell">
          <style:table-cell-properties fo:background-color="#eff3f5" fo:border="0.5pt solid #c3cbd2" fo:wrap-option="wrap" style:vertical-align="top"/>
        </style:style>
        <style:style style:name="fill" style:family="table-cell">
          <style:table-cell-properties fo:border="0.75pt solid #465562" fo:wrap-option="wrap" style:vertical-align="top" style:cell-protect="none"/>
        </style:style>
        <style:style style:name="line" style:family="table-cell"><style:table-cell-properties fo:wrap-option="wrap"/></style:style>
        <style:style style:name="title" style:family="table-cell"><style:text-properties fo:font-weight="bold" fo:font-size="14pt"/></style:style>
      </office:automatic-styles>
      <office:body>
        <office:spreadsheet>
          <table:content-validations><xsl:apply-templates select="choices"/></table:content-validations>
          <xsl:call-template name="how"/>
          <xsl:apply-templates select="sheet"/>
        </office:spreadsheet>
      </office:body>
    </office:document-content>
  </xsl:template>

  <!-- What is offered, but not enforced: "?" and several that are possible may be written too. -->
  <xsl:template match="choices">
    <xsl:variable name="list"><xsl:for-each select="choice"><xsl:if test="position() &gt; 1">;</xsl:if>"<xsl:value-of select="@word"/>"</xsl:for-each></xsl:variable>
    <table:content-validation table:name="{@id}" table:condition="of:cell-content-is-in-list({$list})" table:allow-empty-cell="true" table:display-list="unsorted">
      <table:error-message table:display="true" table:message-type="warning"/>
    </table:content-validation>
  </xsl:template>

  <!-- One column only: `tankside import` takes no sheet of one column for facts. -->
  <xsl:template name="how">
    <table:table table:name="how to fill this in">
      <table:table-column table:style-name="w160"/>
      <xsl:call-template name="line"><xsl:with-param name="style" select="'title'"/><xsl:with-param name="text" select="@title"/></xsl:call-template>
      <xsl:call-template name="line"><xsl:with-param name="text">Each sheet is for those whose name it has; send nobody a sheet that is not theirs.</xsl:with-param></xsl:call-template>
      <xsl:call-template name="line"><xsl:with-param name="text">Fill in the white cells of what you know better than what stands under “now”. An empty cell changes nothing; “?” says that it is not known.</xsl:with-param></xsl:call-template>
      <xsl:call-template name="line"><xsl:with-param name="text">A number without a unit is taken in the unit beside it, or in that of the heading; a unit written behind it counts. A range is written 2..3.</xsl:with-param></xsl:call-template>
      <xsl:call-template name="line"><xsl:with-param name="text">Known from: measured, certificate, statement or estimate; with it, by whom and on which day. In lists, new rows go under the last.</xsl:with-param></xsl:call-template>
      <xsl:call-template name="line"><xsl:with-param name="text">Do not change headings, nor the columns “subject” and “fact”.</xsl:with-param></xsl:call-template>
    </table:table>
  </xsl:template>

  <xsl:template name="line">
    <xsl:param name="text"/>
    <xsl:param name="style" select="'line'"/>
    <table:table-row><table:table-cell table:style-name="{$style}" office:value-type="string"><text:p><xsl:value-of select="$text"/></text:p></table:table-cell></table:table-row>
  </xsl:template>

  <xsl:template match="sheet">
    <table:table table:name="{@name}">
      <xsl:if test="@locked = 'yes'"><xsl:attribute name="table:protected">true</xsl:attribute></xsl:if>
      <xsl:for-each select="column"><table:table-column table:style-name="w{@width}" table:default-cell-style-name="{@kind}"/></xsl:for-each>
      <table:table-header-rows>
        <table:table-row><xsl:apply-templates select="column" mode="heading"/></table:table-row>
      </table:table-header-rows>
      <xsl:apply-templates select="row"/>
      <xsl:if test="@blank &gt; 0">
        <table:table-row table:number-rows-repeated="{@blank}"><xsl:apply-templates select="column" mode="blank"/></table:table-row>
      </xsl:if>
    </table:table>
  </xsl:template>

  <xsl:template match="column" mode="heading">
    <table:table-cell table:style-name="head" office:value-type="string">
      <xsl:if test="@meaning"><office:annotation><text:p><xsl:value-of select="@meaning"/></text:p></office:annotation></xsl:if>
      <text:p><xsl:value-of select="@heading"/></text:p>
    </table:table-cell>
  </xsl:template>

  <xsl:template match="column" mode="blank">
    <table:table-cell table:style-name="{@kind}">
      <xsl:if test="@choices"><xsl:attribute name="table:content-validation-name"><xsl:value-of select="@choices"/></xsl:attribute></xsl:if>
    </table:table-cell>
  </xsl:template>

  <xsl:template match="row">
    <xsl:variable name="columns" select="../column"/>
    <table:table-row>
      <xsl:for-each select="cell">
        <xsl:variable name="at" select="position()"/>
        <table:table-cell table:style-name="{$columns[$at]/@kind}">
          <xsl:if test="@choices"><xsl:attribute name="table:content-validation-name"><xsl:value-of select="@choices"/></xsl:attribute></xsl:if>
          <xsl:if test="@text != ''">
            <xsl:attribute name="office:value-type">string</xsl:attribute>
            <text:p><xsl:value-of select="@text"/></text:p>
          </xsl:if>
        </table:table-cell>
      </xsl:for-each>
    </table:table-row>
  </xsl:template>
</xsl:stylesheet>
