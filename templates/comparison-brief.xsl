<?xml version="1.0" encoding="UTF-8"?>
<!-- Two assessments compared, in a few lines for a terminal: what changed in the facts, and what
     stands otherwise with what is in place. Lines as in comparison-text.xsl. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">
  <xsl:import href="comparison-text.xsl"/>
  <xsl:output method="text" encoding="UTF-8"/>
  <xsl:variable name="most" select="8"/>
  <!-- Those that are used here, by how their ids begin, so that each is found sooner. -->
  <xsl:variable name="w" select="$words/*[contains(' compare explain duty state best n ', concat(' ', substring-before(@id, '-'), ' '))]"/>
  <!-- What somebody wrote; not what is worked out from it, nor what is open and now matters or no longer
       does. What was set is a fact too. -->
  <xsl:variable name="written" select="/comparison/facts/fact[@state != 'derived' and (@state != 'unknown' or @change = 'changed') and not(@state = 'set' and @old = @new)] | /comparison/controls/control
                                       | /comparison/inputs/input[@kind != 'set'] | /comparison/waivers/waiver"/>
  <!-- Found now or before: not what is found in another view only, nor a duty that is met. -->
  <xsl:variable name="moved" select="/comparison/findings/finding[@change = 'rose' or @change = 'fell' or (@change != 'shifted' and @rank &gt; 0)]
                                     | /comparison/duties/duty[@change = 'rose' or @change = 'fell' or (@change != 'shifted' and @rank &gt; 1)]"/>
  <xsl:variable name="asked" select="/comparison/questions/question[@change = 'came']"/>

  <xsl:template match="/comparison">
    <xsl:call-template name="some"><xsl:with-param name="all" select="$written"/></xsl:call-template>
    <xsl:call-template name="some"><xsl:with-param name="all" select="$moved[@word = 'stop']"/></xsl:call-template>
    <xsl:call-template name="some"><xsl:with-param name="all" select="$moved[self::finding and @word != 'stop']"/></xsl:call-template>
    <xsl:call-template name="some"><xsl:with-param name="all" select="$moved[self::duty]"/></xsl:call-template>
    <xsl:call-template name="some"><xsl:with-param name="all" select="$asked"/></xsl:call-template>
    <xsl:if test="not($moved)">
      <xsl:call-template name="line"><xsl:with-param name="head" select="'  '"/>
        <xsl:with-param name="text" select="$w[@id = 'explain-stands']"/></xsl:call-template>
    </xsl:if>
    <xsl:call-template name="figures"/>
  </xsl:template>

  <!-- The worst first; of facts those that some finding reads. -->
  <xsl:template name="some">
    <xsl:param name="all"/>
    <xsl:for-each select="$all">
      <xsl:sort select="@rank" data-type="number" order="descending"/>
      <xsl:sort select="@matters = 'yes'" order="descending"/>
      <xsl:if test="position() &lt;= $most"><xsl:apply-templates select="." mode="brief"/></xsl:if>
    </xsl:for-each>
    <xsl:if test="count($all) &gt; $most">
      <xsl:variable name="c" select="$w[@id = 'n-more']/@many"/>
      <xsl:call-template name="line"><xsl:with-param name="head" select="'  '"/>
        <xsl:with-param name="text" select="concat(substring-before($c, '{n}'), count($all) - $most, substring-after($c, '{n}'))"/></xsl:call-template>
    </xsl:if>
  </xsl:template>

  <xsl:template match="fact | control | input | waiver" mode="brief">
    <xsl:call-template name="line"><xsl:with-param name="head" select="'  '"/>
      <xsl:with-param name="text"><xsl:call-template name="difference"/></xsl:with-param></xsl:call-template>
  </xsl:template>

  <xsl:template match="question" mode="brief">
    <xsl:call-template name="line"><xsl:with-param name="head" select="concat('  ', $w[@id = 'explain-ask'], '   ')"/>
      <xsl:with-param name="text" select="concat(@path, ': ', @meaning, ' (', @asked, ')')"/></xsl:call-template>
  </xsl:template>

  <xsl:template match="finding | duty" mode="brief">
    <xsl:call-template name="line">
      <xsl:with-param name="head" select="concat('  ', $w[@id = concat('compare-', current()/@change)], '  ')"/>
      <xsl:with-param name="text">
        <xsl:if test="@word = 'stop'"><xsl:value-of select="concat($w[@id = 'explain-stop'], ' ')"/></xsl:if>
        <xsl:value-of select="@title"/><xsl:if test="@about != ''">: <xsl:value-of select="@about"/></xsl:if>
        <xsl:value-of select="concat(' (', @subject-label, '): ')"/><xsl:call-template name="stands"/>
      </xsl:with-param>
    </xsl:call-template>
  </xsl:template>

  <!-- "Stops 1 → 0 · Hazards above the line 60 → 58": those that changed. -->
  <xsl:template name="figures">
    <xsl:variable name="new" select="new"/>
    <xsl:variable name="text">
      <xsl:for-each select="old/@stops | old/@above | old/@duties-not-met | old/@duties-open | old/@open | old/@waived | old/@failed">
        <xsl:variable name="is" select="$new/@*[name() = name(current())]"/>
        <xsl:if test=". != $is">
          <xsl:value-of select="concat(' · ', $w[@id = concat('compare-n-', name(current()))], ' ', ., ' → ', $is)"/>
        </xsl:if>
      </xsl:for-each>
    </xsl:variable>
    <xsl:if test="$text != ''">
      <xsl:call-template name="line"><xsl:with-param name="head" select="'  '"/>
        <xsl:with-param name="text" select="substring($text, 4)"/></xsl:call-template>
    </xsl:if>
  </xsl:template>
</xsl:stylesheet>
