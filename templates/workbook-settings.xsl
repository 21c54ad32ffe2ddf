<?xml version="1.0" encoding="UTF-8"?>
<!-- How a workbook opens (settings.xml): headings and the first columns of a sheet stay in sight. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform"
    xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0"
    xmlns:config="urn:oasis:names:tc:opendocument:xmlns:config:1.0">
  <xsl:output method="xml" encoding="UTF-8"/>

  <xsl:template match="/workbook">
    <office:document-settings office:version="1.3">
      <office:settings>
        <config:config-item-set config:name="ooo:view-settings">
          <config:config-item-map-indexed config:name="Views">
            <config:config-item-map-entry>
              <config:config-item config:name="ViewId" config:type="string">view1</config:config-item>
              <config:config-item-map-named config:name="Tables"><xsl:apply-templates select="sheet"/></config:config-item-map-named>
            </config:config-item-map-entry>
          </config:config-item-map-indexed>
        </config:config-item-set>
      </office:settings>
    </office:document-settings>
  </xsl:template>

  <xsl:template match="sheet">
    <config:config-item-map-entry config:name="{@name}">
      <config:config-item config:name="HorizontalSplitMode" config:type="short">2</config:config-item>
      <config:config-item config:name="VerticalSplitMode" config:type="short">2</config:config-item>
      <config:config-item config:name="HorizontalSplitPosition" config:type="int"><xsl:value-of select="@frozen"/></config:config-item>
      <config:config-item config:name="VerticalSplitPosition" config:type="int">1</config:config-item>
      <config:config-item config:name="ActiveSplitRange" config:type="short">3</config:config-item>
      <config:config-item config:name="PositionLeft" config:type="int">0</config:config-item>
      <config:config-item config:name="PositionRight" config:type="int"><xsl:value-of select="@frozen"/></config:config-item>
      <config:config-item config:name="PositionTop" config:type="int">0</config:config-item>
      <config:config-item config:name="PositionBottom" config:type="int">1</config:config-item>
    </config:config-item-map-entry>
  </xsl:template>
</xsl:stylesheet>
