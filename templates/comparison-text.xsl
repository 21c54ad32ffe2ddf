<?xml version="1.0" encoding="UTF-8"?>
<!-- Two assessments compared, in plain text for a terminal. Each line is a head, a tab and a
     text; whoever prints it folds the text under the head. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">
  <xsl:import href="comparison-parts.xsl"/>
  <xsl:output method="text" encoding="UTF-8"/>

  <xsl:template name="line">
    <xsl:param name="head" select="'    '"/>
    <xsl:param name="text"/>
    <xsl:value-of select="concat($head, '&#9;', $text, '&#10;')"/>
  </xsl:template>

  <xsl:template name="part">
    <xsl:param name="id"/>
    <xsl:value-of select="concat('&#9;&#10;&#9;', $w[@id = $id], '&#10;')"/>
  </xsl:template>

  <xsl:template match="/comparison">
    <xsl:for-each select="old | new">
      <xsl:call-template name="line">
        <xsl:with-param name="head" select="concat($w[@id = concat('compare-', name(current()))], '  ')"/>
        <xsl:with-param name="text"><xsl:call-template name="side"/></xsl:with-param>
      </xsl:call-template>
    </xsl:for-each>
    <xsl:apply-templates select="findings | duties"/>
    <xsl:apply-templates select="facts[*] | controls[*] | inputs[*] | waivers[*]"/>
  </xsl:template>

  <xsl:template match="findings | duties">
    <xsl:call-template name="part"><xsl:with-param name="id" select="concat('compare-', name())"/></xsl:call-template>
    <xsl:apply-templates select="*[@change = 'came']"><xsl:sort select="@rank" data-type="number" order="descending"/></xsl:apply-templates>
    <xsl:apply-templates select="*[@change = 'rose']"><xsl:sort select="@rank" data-type="number" order="descending"/></xsl:apply-templates>
    <xsl:apply-templates select="*[@change = 'shifted']"><xsl:sort select="@rank" data-type="number" order="descending"/></xsl:apply-templates>
    <xsl:apply-templates select="*[@change = 'fell']"><xsl:sort select="@rank" data-type="number" order="descending"/></xsl:apply-templates>
    <xsl:apply-templates select="*[@change = 'went']"><xsl:sort select="@rank" data-type="number" order="descending"/></xsl:apply-templates>
    <xsl:call-template name="line"><xsl:with-param name="head" select="'  '"/>
      <xsl:with-param name="text"><xsl:call-template name="alike"/></xsl:with-param></xsl:call-template>
  </xsl:template>

  <xsl:template match="finding | duty">
    <xsl:call-template name="line">
      <xsl:with-param name="head" select="concat('  ', $w[@id = concat('compare-', current()/@change)], '  ')"/>
      <xsl:with-param name="text">
        <xsl:value-of select="@title"/><xsl:if test="@about">: <xsl:value-of select="@about"/></xsl:if>
        <xsl:value-of select="concat(' (', @subject-label, ')')"/>
      </xsl:with-param>
    </xsl:call-template>
    <xsl:call-template name="line">
      <xsl:with-param name="head" select="'        '"/>
      <xsl:with-param name="text"><xsl:call-template name="stands"/></xsl:with-param>
    </xsl:call-template>
    <xsl:for-each select="cause">
      <xsl:call-template name="line">
        <xsl:with-param name="head" select="'        · '"/>
        <xsl:with-param name="text"><xsl:call-template name="cause"/></xsl:with-param>
      </xsl:call-template>
    </xsl:for-each>
  </xsl:template>

  <xsl:template match="facts | controls | inputs | waivers">
    <xsl:call-template name="part"><xsl:with-param name="id" select="concat('compare-', name())"/></xsl:call-template>
    <xsl:for-each select="*">
      <xsl:call-template name="line">
        <xsl:with-param name="head" select="'  '"/>
        <xsl:with-param name="text"><xsl:call-template name="difference"/></xsl:with-param>
      </xsl:call-template>
    </xsl:for-each>
  </xsl:template>
</xsl:stylesheet>
