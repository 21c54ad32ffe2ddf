<?xml version="1.0" encoding="UTF-8"?>
<!-- Aids for reading on a screen: what reading.js shows, and the marks it goes by. A template element is
     nothing to a reader whose browser runs no script, and nothing on paper. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">

  <xsl:template name="aids">
    <template id="aids">
      <div class="aids" role="search" aria-label="{$w[@id = 'aids']}">
        <label><xsl:value-of select="$w[@id = 'person']"/><xsl:text> </xsl:text><select name="person">
          <option value=""><xsl:value-of select="$w[@id = 'aids-all']"/></option>
          <xsl:for-each select="/assessment/people/person"><option value="{@path}"><xsl:value-of select="@label"/></option></xsl:for-each>
        </select></label>
        <label><xsl:value-of select="$w[@id = 'band']"/><xsl:text> </xsl:text><select name="band">
          <option value=""><xsl:value-of select="$w[@id = 'aids-all']"/></option>
          <option value="stop"><xsl:value-of select="$w[@id = 'stops']"/></option>
          <xsl:for-each select="$bands"><xsl:sort select="@rank" data-type="number" order="descending"/><option value="{@id}"><xsl:value-of select="@word"/></option></xsl:for-each>
          <option value="duty"><xsl:value-of select="$w[@id = 'duty']"/></option>
        </select></label>
        <label><xsl:value-of select="$w[@id = 'where-site']"/><xsl:text> </xsl:text><select name="place">
          <option value=""><xsl:value-of select="$w[@id = 'aids-all']"/></option>
          <xsl:for-each select="/assessment/schedule/day[not(@site = preceding-sibling::day/@site)]"><option value="{@site}"><xsl:value-of select="@site-label"/></option></xsl:for-each>
          <xsl:for-each select="/assessment/schedule/day/task"><option value="{@path}"><xsl:value-of select="@title"/></option></xsl:for-each>
        </select></label>
        <button type="button"><xsl:value-of select="$w[@id = 'aids-show-all']"/></button>
        <output data-words="{$w[@id = 'aids-shown']}"></output>
      </div>
    </template>
  </xsl:template>

  <!-- On the row of a finding or duty: its band, and the persons and places of all it stands for. -->
  <xsl:template name="aid-marks">
    <xsl:param name="all" select="."/>
    <xsl:attribute name="data-band">
      <xsl:choose>
        <xsl:when test="self::duty">duty</xsl:when>
        <xsl:when test="@word = 'hazard'"><xsl:value-of select="score[@as = 'in-place']/@worst-band"/></xsl:when>
        <xsl:otherwise><xsl:value-of select="@word"/></xsl:otherwise>
      </xsl:choose>
    </xsl:attribute>
    <xsl:attribute name="data-person">
      <xsl:for-each select="$all">
        <xsl:variable name="in" select="key('task', @task)/*[@path = current()/@subject]/@person"/>
        <xsl:choose>
          <xsl:when test="$in"><xsl:value-of select="concat($in, ' ')"/></xsl:when>
          <xsl:otherwise><xsl:value-of select="concat(substring-before(concat(@subject, '@'), '@'), ' ')"/></xsl:otherwise>
        </xsl:choose>
      </xsl:for-each>
    </xsl:attribute>
    <xsl:attribute name="data-place"><xsl:for-each select="$all"><xsl:value-of select="concat(@task, ' ', @site, ' ')"/></xsl:for-each></xsl:attribute>
  </xsl:template>
</xsl:stylesheet>
