<?xml version="1.0" encoding="UTF-8"?>
<!-- Two assessments compared, as a page: what changed, and because of what. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">
  <xsl:import href="comparison-parts.xsl"/>
  <xsl:import href="common.xsl"/>

  <!-- The mark of a draft is that of the new one. -->
  <xsl:variable name="root" select="/comparison/new"/>

  <xsl:template match="comparison" mode="title">
    <xsl:value-of select="concat($w[@id = 'comparison'], ' · ', new/@title)"/>
  </xsl:template>

  <xsl:template match="comparison" mode="body">
    <main id="content">
      <p class="kicker"><xsl:value-of select="$w[@id = 'comparison']"/></p>
      <h1><xsl:value-of select="new/@title"/></h1>
      <p class="lead"><xsl:value-of select="$w[@id = 'compare-lead']"/></p>
      <xsl:call-template name="sides"/>
      <xsl:apply-templates select="findings | duties" mode="page"/>
      <xsl:apply-templates select="facts | controls | inputs | waivers" mode="page"/>
      <p class="legend"><xsl:value-of select="$w[@id = 'caution']"/></p>
    </main>
  </xsl:template>

  <!-- The two assessments and their headlines. -->
  <xsl:template name="sides">
    <table class="compare-sides">
      <caption><xsl:value-of select="$w[@id = 'compare-counts']"/></caption>
      <thead><tr>
        <th scope="col"><xsl:value-of select="$w[@id = 'compare-what']"/></th>
        <xsl:for-each select="old | new">
          <th scope="col"><xsl:value-of select="$w[@id = concat('compare-', name(current()))]"/>
            <span class="of"><xsl:call-template name="side"/></span></th>
        </xsl:for-each>
      </tr></thead>
      <tbody>
        <xsl:for-each select="new/@complete | new/@stops | new/@above | new/@open | new/@duties-not-met | new/@duties-open | new/@waived | new/@failed">
          <xsl:variable name="name" select="name()"/>
          <xsl:variable name="was" select="../../old/@*[name() = $name]"/>
          <tr>
            <th scope="row"><xsl:value-of select="$w[@id = concat('compare-n-', $name)]"/></th>
            <td><xsl:value-of select="$was"/></td>
            <td><xsl:choose>
              <xsl:when test="$was = ."><xsl:value-of select="."/></xsl:when>
              <xsl:otherwise><b><xsl:value-of select="."/></b></xsl:otherwise>
            </xsl:choose></td>
          </tr>
        </xsl:for-each>
      </tbody>
    </table>
  </xsl:template>

  <xsl:template match="findings | duties" mode="page">
    <section aria-labelledby="{name()}">
      <h2 id="{name()}"><xsl:value-of select="$w[@id = concat('compare-', name(current()))]"/></h2>
      <xsl:if test="*[@change]">
        <table class="compare-changes">
          <caption class="away"><xsl:value-of select="$w[@id = concat('compare-', name(current()))]"/></caption>
          <thead><tr>
            <th scope="col"><xsl:value-of select="$w[@id = 'compare-change']"/></th>
            <th scope="col"><xsl:value-of select="$w[@id = 'compare-what']"/></th>
            <th scope="col"><xsl:value-of select="$w[@id = 'compare-was']"/></th>
            <th scope="col"><xsl:value-of select="$w[@id = 'compare-is']"/></th>
            <th scope="col"><xsl:value-of select="$w[@id = 'compare-cause']"/></th>
          </tr></thead>
          <tbody>
            <xsl:apply-templates select="*[@change]" mode="page">
              <xsl:sort select="string-length(substring-before('came rose shifted fell went', @change))" data-type="number"/>
              <xsl:sort select="@rank" data-type="number" order="descending"/>
            </xsl:apply-templates>
          </tbody>
        </table>
      </xsl:if>
      <p class="quiet"><xsl:call-template name="alike"/></p>
    </section>
  </xsl:template>

  <xsl:template match="finding | duty" mode="page">
    <tr>
      <td><b><xsl:value-of select="$w[@id = concat('compare-', current()/@change)]"/></b></td>
      <th scope="row"><xsl:value-of select="@title"/><xsl:if test="@about"><xsl:value-of select="$colon"/><xsl:value-of select="@about"/></xsl:if>
        <span class="of"><xsl:value-of select="@subject-label"/></span>
        <xsl:if test="@instrument"><span class="of"><xsl:value-of select="concat(@instrument, ', ', @section)"/></span></xsl:if></th>
      <td><xsl:call-template name="stand"><xsl:with-param name="it" select="was"/></xsl:call-template></td>
      <td><xsl:call-template name="stand"><xsl:with-param name="it" select="is"/></xsl:call-template></td>
      <td><xsl:for-each select="cause"><div><xsl:call-template name="cause"/></div></xsl:for-each></td>
    </tr>
  </xsl:template>

  <xsl:template match="facts | controls | inputs | waivers" mode="page">
    <section aria-labelledby="{name()}">
      <h2 id="{name()}"><xsl:value-of select="$w[@id = concat('compare-', name(current()))]"/></h2>
      <xsl:choose>
        <xsl:when test="*"><ul class="plain"><xsl:for-each select="*"><li><xsl:call-template name="difference"/></li></xsl:for-each></ul></xsl:when>
        <xsl:otherwise><p class="quiet"><xsl:value-of select="$w[@id = 'compare-nothing']"/></p></xsl:otherwise>
      </xsl:choose>
    </section>
  </xsl:template>
</xsl:stylesheet>
