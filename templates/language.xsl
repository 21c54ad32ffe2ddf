<?xml version="1.0" encoding="UTF-8"?>
<!-- An assessment put into the language of the papers, before they are made from it: texts of
     rules, controls and matrix that a terms file knows, days in words, decimal marks. What a
     dossier says is left as it is; so is what has no translation, and that is listed at the end.
     The result is for the sheets only: assessment.xml itself is written once, in English. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">
  <xsl:import href="words.xsl"/>
  <xsl:output method="xml" encoding="UTF-8"/>
  <xsl:param name="into"/>
  <xsl:variable name="language" select="$into"/>

  <xsl:variable name="digits" select="'0123456789'"/>
  <xsl:variable name="decimal" select="$words/@decimal"/>
  <xsl:key name="rule" match="finding | duty" use="@rule"/>
  <xsl:key name="rule" match="looked-at/rule" use="@id"/>

  <xsl:template match="@* | node()"><xsl:copy><xsl:apply-templates select="@* | node()"/></xsl:copy></xsl:template>

  <xsl:template match="/assessment">
    <assessment language="{$language}" withheld="{$w[@id = 'withheld-title']}">
      <xsl:apply-templates select="@* | node()"/>
      <xsl:call-template name="not-translated"/>
    </assessment>
  </xsl:template>

  <!-- ===== texts ===== -->

  <xsl:template match="@title | @harm | @reasoning | @who | @word | @meaning | @sign | @review | @how | @often
    | @asked | @measured">
    <xsl:attribute name="{name()}"><xsl:call-template name="said"/></xsl:attribute>
  </xsl:template>
  <!-- How the sheets tell kinds apart, and what the dossier says. -->
  <xsl:template match="finding/@word | production/@title | task/@title" priority="1"><xsl:copy/></xsl:template>

  <xsl:template match="say/text() | effect/text() | because/text()"><xsl:call-template name="said"/></xsl:template>

  <xsl:template name="said">
    <xsl:variable name="text"><xsl:apply-templates select="." mode="term"/></xsl:variable>
    <xsl:call-template name="decimals"><xsl:with-param name="text" select="string($text)"/></xsl:call-template>
  </xsl:template>

  <xsl:template match="text()" mode="term">
    <xsl:call-template name="term"><xsl:with-param name="text" select="string(.)"/></xsl:call-template>
  </xsl:template>

  <!-- "Hal in “the leap”", "Drew, post in “the leap”": what a subject is called that nobody named. -->
  <xsl:template match="@subject-label | @scope-label">
    <xsl:attribute name="{name()}">
      <xsl:choose>
        <xsl:when test="contains(., ', post in “')">
          <xsl:value-of select="concat(substring-before(., ', post in “'), ', ', $w[@id = 'label-post'], ' “', substring-after(., ', post in “'))"/>
        </xsl:when>
        <xsl:when test="contains(., ' in “')">
          <xsl:value-of select="concat(substring-before(., ' in “'), ' ', $w[@id = 'label-in'], ' “', substring-after(., ' in “'))"/>
        </xsl:when>
        <xsl:otherwise><xsl:value-of select="."/></xsl:otherwise>
      </xsl:choose>
    </xsl:attribute>
  </xsl:template>

  <!-- "age ((withheld)) at least 18 years" -->
  <xsl:template match="@withheld | skipped/@because">
    <xsl:variable name="mark" select="'(withheld)'"/>
    <xsl:variable name="text">
      <xsl:if test="not(contains(., $mark))"><xsl:value-of select="."/></xsl:if>
      <xsl:if test="contains(., $mark)"><xsl:value-of select="concat(substring-before(., $mark), $w[@id = 'withheld'], substring-after(., $mark))"/></xsl:if>
    </xsl:variable>
    <xsl:attribute name="{name()}">
      <xsl:call-template name="decimals"><xsl:with-param name="text" select="string($text)"/></xsl:call-template>
    </xsl:attribute>
  </xsl:template>

  <!-- ===== values ===== -->

  <xsl:template match="fact/@text | rests/@text | value/@text | value/@names | value/@working | condition/@text | when/@text
    | @now | @edge | @to | @words | @then | @plausible | @best | @takes | @at | @depth | @time | @breath-hold
    | @planned | @recorded | @seven-days | @minutes">
    <xsl:attribute name="{name()}">
      <xsl:call-template name="decimals"><xsl:with-param name="text" select="string(.)"/></xsl:call-template>
    </xsl:attribute>
  </xsl:template>

  <!-- The language's mark for the point in "26.5", and only there: not in "1..2", not in "4.2.1". -->
  <xsl:template name="decimals">
    <xsl:param name="text"/>
    <xsl:param name="numbered" select="false()"/>
    <xsl:choose>
      <xsl:when test="$decimal = '.' or not(contains($text, '.'))"><xsl:value-of select="$text"/></xsl:when>
      <xsl:otherwise>
        <xsl:variable name="before" select="substring-before($text, '.')"/>
        <xsl:variable name="after" select="substring-after($text, '.')"/>
        <xsl:variable name="between" select="contains($digits, substring(concat('x', $before), string-length($before) + 1))
          and $after != '' and contains($digits, substring($after, 1, 1))"/>
        <!-- Another point, and another number behind it, follow the digits. -->
        <xsl:variable name="run" select="substring-before($after, '.')"/>
        <xsl:variable name="more" select="$between and $run != '' and translate($run, $digits, '') = ''
          and contains($digits, substring(concat(substring-after($after, '.'), 'x'), 1, 1))"/>
        <xsl:value-of select="$before"/>
        <xsl:choose>
          <xsl:when test="$between and not($more) and not($numbered and translate($before, $digits, '') = '')"><xsl:value-of select="$decimal"/></xsl:when>
          <xsl:otherwise>.</xsl:otherwise>
        </xsl:choose>
        <xsl:call-template name="decimals">
          <xsl:with-param name="text" select="$after"/><xsl:with-param name="numbered" select="$more"/>
        </xsl:call-template>
      </xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <!-- ===== days ===== -->

  <xsl:template match="day/@words" priority="1">
    <xsl:attribute name="words"><xsl:call-template name="day"><xsl:with-param name="date" select="../@date"/></xsl:call-template></xsl:attribute>
  </xsl:template>

  <!-- Beside the date of the revision, which the page's own data need as it is. -->
  <xsl:template match="production/@on">
    <xsl:copy/>
    <xsl:attribute name="on-words"><xsl:call-template name="day"><xsl:with-param name="date" select="."/></xsl:call-template></xsl:attribute>
  </xsl:template>

  <xsl:template name="day">
    <xsl:param name="date"/>
    <xsl:variable name="year" select="number(substring($date, 1, 4))"/>
    <xsl:variable name="month" select="number(substring($date, 6, 2))"/>
    <xsl:variable name="day" select="number(substring($date, 9, 2))"/>
    <!-- Days of the week in the calendar of Gregory: years are counted from March, so that a leap day ends one. -->
    <xsl:variable name="y" select="$year - number($month &lt; 3)"/>
    <xsl:variable name="m" select="($month + 9) mod 12"/>
    <xsl:variable name="weekday" select="($day + $y + floor($y div 4) - floor($y div 100) + floor($y div 400) + floor((13 * $m + 2) div 5) + 2) mod 7"/>
    <xsl:variable name="form" select="$words/date"/>
    <xsl:for-each select="$form/part">
      <xsl:choose>
        <xsl:when test="@is = 'weekday'"><xsl:value-of select="$form/weekday[$weekday + 1]"/></xsl:when>
        <xsl:when test="@is = 'day'"><xsl:value-of select="$day"/><xsl:if test="$day = 1"><xsl:value-of select="@first"/></xsl:if></xsl:when>
        <xsl:when test="@is = 'month'"><xsl:value-of select="$form/month[$month]"/></xsl:when>
        <xsl:otherwise><xsl:value-of select="$year"/></xsl:otherwise>
      </xsl:choose>
      <xsl:value-of select="@then"/>
    </xsl:for-each>
  </xsl:template>

  <!-- ===== what stays in English ===== -->

  <xsl:template name="not-translated">
    <xsl:if test="$terms">
      <not-translated>
        <xsl:for-each select="findings/finding | duties/duty | looked-at/rule">
          <xsl:variable name="id" select="@rule | self::rule/@id"/>
          <xsl:if test="count(. | key('rule', $id)[1]) = 1">
            <xsl:variable name="lacks"><xsl:apply-templates select="@title | @harm" mode="lacks"/></xsl:variable>
            <xsl:if test="$lacks != ''"><rule id="{$id}"/></xsl:if>
          </xsl:if>
        </xsl:for-each>
        <xsl:for-each select="controls/control">
          <xsl:variable name="lacks"><xsl:apply-templates select="@title | say/text() | check/@*" mode="lacks"/></xsl:variable>
          <xsl:if test="$lacks != ''"><control ref="{@ref}"/></xsl:if>
        </xsl:for-each>
      </not-translated>
    </xsl:if>
  </xsl:template>

  <xsl:template match="@* | text()" mode="lacks">
    <xsl:variable name="text" select="string(.)"/>
    <xsl:for-each select="$terms"><xsl:if test="not(key('term', $text))">x</xsl:if></xsl:for-each>
  </xsl:template>
</xsl:stylesheet>
