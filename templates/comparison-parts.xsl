<?xml version="1.0" encoding="UTF-8"?>
<!-- A comparison in words, as both its text and its page have them. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">
  <xsl:variable name="words" select="document('words-en-GB.xml')/words"/>
  <xsl:variable name="w" select="$words/word | $words/count"/>

  <xsl:template name="side">
    <xsl:value-of select="concat(@title, ' · ', $w[@id = 'revision'], ' ', @revision)"/>
    <xsl:if test="@on != ''"><xsl:value-of select="concat(' · ', @on)"/></xsl:if>
    <xsl:if test="@by != ''"><xsl:value-of select="concat(' · ', @by)"/></xsl:if>
    <xsl:value-of select="concat(' · ', $w[@id = 'digest-short'], ' ', substring(@digest, 1, 12))"/>
  </xsl:template>

  <xsl:template name="alike">
    <xsl:variable name="n" select="alike/@count"/>
    <xsl:variable name="c" select="$w[@id = 'compare-alike']"/>
    <xsl:choose>
      <xsl:when test="$n = 0 and not(*[@change])"><xsl:value-of select="$w[@id = 'none']"/></xsl:when>
      <xsl:when test="$n = 0"><xsl:value-of select="$c/@none"/></xsl:when>
      <xsl:when test="$n = 1"><xsl:value-of select="$c/@one"/></xsl:when>
      <xsl:otherwise><xsl:value-of select="concat(substring-before($c/@many, '{n}'), $n, substring-after($c/@many, '{n}'))"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <!-- How it stood and stands: "moderate 6 → high 12". -->
  <xsl:template name="stands">
    <xsl:call-template name="stand"><xsl:with-param name="it" select="was"/></xsl:call-template>
    <xsl:text> → </xsl:text>
    <xsl:call-template name="stand"><xsl:with-param name="it" select="is"/></xsl:call-template>
  </xsl:template>

  <xsl:template name="stand">
    <xsl:param name="it"/>
    <xsl:variable name="state" select="$it/@state"/>
    <xsl:variable name="band" select="/comparison/matrix/band[@id = $it/@worst-band]/@word"/>
    <xsl:choose>
      <xsl:when test="not($it) or $it/@worst-none = 'yes'"><xsl:value-of select="$w[@id = 'compare-not-found']"/></xsl:when>
      <xsl:when test="self::duty"><xsl:value-of select="$w[@id = concat('duty-', $state)]"/></xsl:when>
      <xsl:when test="$state"><xsl:value-of select="$w[@id = concat('state-', $state)]"/></xsl:when>
      <xsl:otherwise>
        <xsl:value-of select="concat($it/@worst-likelihood, ' × ', $it/@worst-severity, ', ')"/>
        <xsl:choose>
          <xsl:when test="$band"><xsl:value-of select="$band"/></xsl:when>
          <xsl:otherwise><xsl:value-of select="$it/@worst-band"/></xsl:otherwise>
        </xsl:choose>
        <xsl:if test="$it/@best-likelihood and ($it/@best-likelihood != $it/@worst-likelihood or $it/@best-severity != $it/@worst-severity)">
          <xsl:value-of select="concat(' (', $w[@id = 'best-short'], ' ', $it/@best-likelihood, ' × ', $it/@best-severity, ')')"/>
        </xsl:if>
        <xsl:if test="$it/@best-none = 'yes'"><xsl:value-of select="concat(' (', $w[@id = 'best-short'], ' ', $w[@id = 'compare-not-found'], ')')"/></xsl:if>
      </xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <!-- One side of a difference; what is missing is not there. -->
  <xsl:template name="value">
    <xsl:param name="text"/>
    <xsl:param name="missing" select="'compare-not-there'"/>
    <xsl:choose>
      <xsl:when test="not($text)"><xsl:value-of select="$w[@id = $missing]"/></xsl:when>
      <xsl:when test="$text = 'in-place' or $text = 'planned'"><xsl:value-of select="$w[@id = concat('compare-', $text)]"/></xsl:when>
      <xsl:otherwise><xsl:value-of select="$text"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <xsl:template name="both">
    <xsl:param name="missing" select="'compare-not-there'"/>
    <xsl:call-template name="value"><xsl:with-param name="text" select="@old"/><xsl:with-param name="missing" select="$missing"/></xsl:call-template>
    <xsl:text> → </xsl:text>
    <xsl:call-template name="value"><xsl:with-param name="text" select="@new"/><xsl:with-param name="missing" select="$missing"/></xsl:call-template>
  </xsl:template>

  <xsl:template name="cause">
    <xsl:choose>
      <xsl:when test="@kind = 'fact'">
        <xsl:value-of select="concat(@title, ' ')"/><xsl:call-template name="both"/><xsl:value-of select="concat(' (', @name, ')')"/>
      </xsl:when>
      <xsl:when test="@kind = 'control'">
        <xsl:value-of select="concat(@title, ': ')"/>
        <xsl:call-template name="both"><xsl:with-param name="missing" select="'compare-not-planned'"/></xsl:call-template>
      </xsl:when>
      <xsl:when test="@kind = 'rules'">
        <xsl:value-of select="concat($w[@id = 'compare-rules'], ' ', @name, ' ', $w[@id = concat('compare-', current()/@change)])"/>
        <xsl:if test="../@rule"><xsl:value-of select="concat(' (', ../@rule, ')')"/></xsl:if>
      </xsl:when>
      <xsl:when test="@kind = 'none'"><xsl:value-of select="$w[@id = 'compare-none']"/></xsl:when>
      <xsl:otherwise><xsl:value-of select="concat($w[@id = concat('compare-', current()/@kind)], ' ', $w[@id = 'compare-changed'])"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <xsl:template name="difference">
    <xsl:choose>
      <xsl:when test="self::fact">
        <xsl:value-of select="concat(@path, ': ')"/><xsl:call-template name="both"/>
        <xsl:if test="@matters = 'no'"><xsl:value-of select="concat(' (', $w[@id = 'compare-no-score'], ')')"/></xsl:if>
      </xsl:when>
      <xsl:when test="self::control">
        <xsl:value-of select="concat(@title, ' (', @subject-label, '): ')"/>
        <xsl:call-template name="both"><xsl:with-param name="missing" select="'compare-not-planned'"/></xsl:call-template>
      </xsl:when>
      <xsl:when test="self::waiver">
        <xsl:value-of select="concat($w[@id = concat('compare-', current()/@change)], ': ', @rule, ' · ', @by, ' · ', @until, ' · ', @because)"/>
      </xsl:when>
      <xsl:when test="@kind = 'set'">
        <xsl:value-of select="concat($w[@id = 'compare-set'], ' ', @name, ': ')"/><xsl:call-template name="both"/>
      </xsl:when>
      <xsl:otherwise><xsl:call-template name="cause"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>
</xsl:stylesheet>
