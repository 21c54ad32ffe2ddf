<?xml version="1.0" encoding="UTF-8"?>
<!-- The page by which the files of an assessment are found: for whom each is. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">
  <xsl:import href="common.xsl"/>
  <xsl:param name="pdf"/>
  <xsl:param name="parts"/>
  <xsl:variable name="withhold" select="true()"/>

  <xsl:template match="assessment" mode="title">
    <xsl:value-of select="concat($w[@id = 'sheet-index'], ' · ', production/@title)"/>
  </xsl:template>

  <xsl:template match="assessment" mode="body">
    <main id="content">
      <header class="cover">
        <p class="kicker"><xsl:value-of select="$w[@id = 'sheet-index']"/></p>
        <h1><xsl:value-of select="$production/@title"/></h1>
        <p class="caution-box"><xsl:value-of select="$w[@id = 'caution']"/></p>
      </header>
      <table class="files">
        <caption class="away"><xsl:value-of select="$w[@id = 'sheet-index']"/></caption>
        <thead><tr>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'index-what'"/></xsl:call-template>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'index-for'"/></xsl:call-template>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'index-files'"/></xsl:call-template>
        </tr></thead>
        <tbody>
          <xsl:for-each select="$files">
            <xsl:choose>
              <xsl:when test="@name = 'task'">
                <xsl:variable name="file" select="."/>
                <xsl:for-each select="$root/schedule/day/task">
                  <xsl:call-template name="file-row">
                    <xsl:with-param name="file" select="$file"/>
                    <xsl:with-param name="name" select="concat('task-', @path)"/>
                    <xsl:with-param name="what" select="concat($w[@id = 'sheet-task'], $colon, @title)"/>
                  </xsl:call-template>
                </xsl:for-each>
              </xsl:when>
              <xsl:otherwise>
                <xsl:call-template name="file-row">
                  <xsl:with-param name="file" select="."/><xsl:with-param name="name" select="@name"/>
                  <xsl:with-param name="what" select="$w[@id = concat('sheet-', current()/@name)]"/>
                </xsl:call-template>
              </xsl:otherwise>
            </xsl:choose>
          </xsl:for-each>
        </tbody>
      </table>
    </main>
    <footer class="paper-foot"><p class="quiet"><xsl:value-of select="$w[@id = 'written-by']"/><xsl:text> </xsl:text><xsl:value-of select="@tankside"/></p></footer>
  </xsl:template>

  <xsl:template name="file-row">
    <xsl:param name="file"/>
    <xsl:param name="name"/>
    <xsl:param name="what"/>
    <tr>
      <th scope="row"><xsl:value-of select="$what"/></th>
      <td><xsl:value-of select="$file"/></td>
      <td><xsl:call-template name="file-links"><xsl:with-param name="name" select="$name"/><xsl:with-param name="forms" select="concat($file/@forms, ' ')"/></xsl:call-template></td>
    </tr>
  </xsl:template>

  <xsl:template name="file-links">
    <xsl:param name="name"/>
    <xsl:param name="forms"/>
    <xsl:variable name="form" select="substring-before($forms, ' ')"/>
    <xsl:variable name="set-in" select="substring-before(substring-after(concat(' ', $parts), concat(' ', $name, '/')), ' ')"/>
    <xsl:if test="$form != ''">
      <xsl:if test="$form = 'pdf' and $set-in != ''">
        <xsl:text>PDF </xsl:text><xsl:call-template name="part-links"><xsl:with-param name="name" select="$name"/><xsl:with-param name="parts" select="$set-in"/></xsl:call-template>
      </xsl:if>
      <xsl:if test="$form != 'pdf' or $pdf = 'yes' and $set-in = ''"><a href="{$name}.{$form}"><xsl:value-of select="translate($form, 'abcdefghijklmnopqrstuvwxyz', 'ABCDEFGHIJKLMNOPQRSTUVWXYZ')"/></a><xsl:text> </xsl:text></xsl:if>
      <xsl:call-template name="file-links"><xsl:with-param name="name" select="$name"/><xsl:with-param name="forms" select="substring-after($forms, ' ')"/></xsl:call-template>
    </xsl:if>
  </xsl:template>

  <!-- A PDF that is set in parts: their numbers. -->
  <xsl:template name="part-links">
    <xsl:param name="name"/>
    <xsl:param name="parts"/>
    <xsl:param name="part" select="1"/>
    <xsl:if test="$part &lt;= $parts">
      <a href="{$name}-part-{format-number($part, '00')}.pdf"><xsl:value-of select="$part"/></a><xsl:text> </xsl:text>
      <xsl:call-template name="part-links"><xsl:with-param name="name" select="$name"/><xsl:with-param name="parts" select="$parts"/><xsl:with-param name="part" select="$part + 1"/></xsl:call-template>
    </xsl:if>
  </xsl:template>
</xsl:stylesheet>
