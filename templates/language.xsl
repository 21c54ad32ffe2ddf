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

  <!-- Words for thousands of places are looked for once. -->
  <xsl:variable name="said-margin-only" select="string($w[@id = 'margin-only'])"/>
  <xsl:variable name="said-margin-may" select="string($w[@id = 'margin-may'])"/>
  <xsl:variable name="said-margin-now" select="string($w[@id = 'margin-now'])"/>
  <xsl:variable name="said-margin-edge" select="string($w[@id = 'margin-edge'])"/>
  <xsl:variable name="said-margin-moved" select="string($w[@id = 'margin-moved'])"/>
  <xsl:variable name="said-margin-unknown" select="string($w[@id = 'margin-unknown'])"/>
  <xsl:variable name="said-shift-new" select="string($w[@id = 'shift-new'])"/>
  <xsl:variable name="said-label-post" select="string($w[@id = 'label-post'])"/>
  <xsl:variable name="said-label-in" select="string($w[@id = 'label-in'])"/>
  <xsl:variable name="said-withheld" select="string($w[@id = 'withheld'])"/>

  <xsl:template match="@* | node()"><xsl:copy><xsl:apply-templates select="@* | node()"/></xsl:copy></xsl:template>

  <xsl:template match="/assessment">
    <assessment language="{$language}" withheld="{$w[@id = 'withheld-title']}">
      <xsl:apply-templates select="@* | node()"/>
      <xsl:call-template name="not-translated"/>
    </assessment>
  </xsl:template>

  <!-- ===== texts ===== -->

  <xsl:template match="@title | @harm | @reasoning | @who | @word | @meaning | @sign | @review | @how | @often
    | @asked | @measured | duty/@evidence | finding/@about | duty/@about">
    <xsl:attribute name="{name()}"><xsl:call-template name="said"/></xsl:attribute>
  </xsl:template>
  <!-- How the sheets tell kinds apart, and what the dossier says. -->
  <xsl:template match="finding/@word | production/@title | task/@title" priority="1"><xsl:copy/></xsl:template>

  <xsl:template match="say/text() | because/text()"><xsl:call-template name="said"/></xsl:template>

  <xsl:template name="said">
    <xsl:variable name="text"><xsl:apply-templates select="." mode="term"/></xsl:variable>
    <xsl:call-template name="decimals"><xsl:with-param name="text" select="string($text)"/></xsl:call-template>
  </xsl:template>

  <!-- ===== reasons: the values of the English text, put into the translation of its form ===== -->

  <xsl:template match="because[@form]/text()" priority="1"><xsl:call-template name="reason"/></xsl:template>
  <xsl:template match="because[@form]/@withheld" priority="1">
    <xsl:attribute name="withheld"><xsl:call-template name="reason"/></xsl:attribute>
  </xsl:template>

  <!-- A rule that wrote a personal fact into its own words: seen in English, where rule and fact have the same words. -->
  <xsl:template match="because[not(@withheld)]">
    <because>
      <xsl:apply-templates select="@*"/>
      <xsl:if test="../rests[@sees = 'confidential'][string-length(@text) &gt; 3][contains(current(), @text)]">
        <xsl:attribute name="withheld"><xsl:value-of select="$w[@id = 'hidden-reason']"/></xsl:attribute>
      </xsl:if>
      <xsl:apply-templates/>
    </because>
  </xsl:template>

  <xsl:template name="reason">
    <xsl:variable name="into"><xsl:apply-templates select="../@form" mode="term"/></xsl:variable>
    <xsl:variable name="made">
      <xsl:choose>
        <xsl:when test="$into = ../@form"><xsl:value-of select="."/></xsl:when>
        <xsl:otherwise>
          <xsl:call-template name="placed">
            <xsl:with-param name="into" select="string($into)"/><xsl:with-param name="form" select="string(../@form)"/><xsl:with-param name="text" select="string(.)"/>
          </xsl:call-template>
        </xsl:otherwise>
      </xsl:choose>
    </xsl:variable>
    <xsl:call-template name="decimals"><xsl:with-param name="text" select="string($made)"/></xsl:call-template>
  </xsl:template>

  <xsl:template name="placed">
    <xsl:param name="into"/>
    <xsl:param name="form"/>
    <xsl:param name="text"/>
    <xsl:choose>
      <xsl:when test="contains($into, '{')">
        <xsl:variable name="value">
          <xsl:call-template name="value-at">
            <xsl:with-param name="name" select="substring-before(substring-after($into, '{'), '}')"/>
            <xsl:with-param name="form" select="$form"/><xsl:with-param name="text" select="$text"/>
          </xsl:call-template>
        </xsl:variable>
        <xsl:value-of select="substring-before($into, '{')"/>
        <xsl:call-template name="worded"><xsl:with-param name="text" select="string($value)"/></xsl:call-template>
        <xsl:call-template name="placed">
          <xsl:with-param name="into" select="substring-after($into, '}')"/><xsl:with-param name="form" select="$form"/><xsl:with-param name="text" select="$text"/>
        </xsl:call-template>
      </xsl:when>
      <xsl:otherwise><xsl:value-of select="$into"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <!-- What stands in a text between the words that its form has before a place and behind it. -->
  <xsl:template name="value-at">
    <xsl:param name="name"/>
    <xsl:param name="form"/>
    <xsl:param name="text"/>
    <xsl:variable name="rest" select="substring-after($form, '}')"/>
    <xsl:variable name="here" select="substring($text, string-length(substring-before($form, '{')) + 1)"/>
    <xsl:variable name="value">
      <xsl:choose>
        <xsl:when test="contains($rest, '{')"><xsl:value-of select="substring-before($here, substring-before($rest, '{'))"/></xsl:when>
        <xsl:otherwise><xsl:value-of select="substring($here, 1, string-length($here) - string-length($rest))"/></xsl:otherwise>
      </xsl:choose>
    </xsl:variable>
    <xsl:choose>
      <xsl:when test="substring-before(substring-after($form, '{'), '}') = $name"><xsl:value-of select="$value"/></xsl:when>
      <xsl:when test="contains($rest, '{')">
        <xsl:call-template name="value-at">
          <xsl:with-param name="name" select="$name"/><xsl:with-param name="form" select="$rest"/>
          <xsl:with-param name="text" select="substring($here, string-length($value) + 1)"/>
        </xsl:call-template>
      </xsl:when>
    </xsl:choose>
  </xsl:template>

  <!-- ===== values in words ===== -->

  <xsl:template name="worded">
    <xsl:param name="text"/>
    <xsl:choose>
      <xsl:when test="contains($digits, substring(concat($text, 'x'), 1, 1))"><xsl:call-template name="measured"><xsl:with-param name="text" select="$text"/></xsl:call-template></xsl:when>
      <xsl:otherwise><xsl:call-template name="choices"><xsl:with-param name="text" select="$text"/></xsl:call-template></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <!-- "36.81 years", "20 February 2026 .. 3 March 2026"; what has no word stays. -->
  <xsl:template name="measured">
    <xsl:param name="text"/>
    <xsl:variable name="number" select="substring-before($text, ' ')"/>
    <xsl:variable name="unit" select="substring-after($text, ' ')"/>
    <xsl:choose>
      <xsl:when test="contains($text, ' .. ')">
        <xsl:call-template name="measured"><xsl:with-param name="text" select="substring-before($text, ' .. ')"/></xsl:call-template>
        <xsl:text> .. </xsl:text>
        <xsl:call-template name="measured"><xsl:with-param name="text" select="substring-after($text, ' .. ')"/></xsl:call-template>
      </xsl:when>
      <xsl:when test="starts-with($unit, 'per ')"><xsl:value-of select="concat($number, '/', substring-after($unit, 'per '))"/></xsl:when>
      <xsl:when test="$unit = 'years' or $unit = 'year' or $unit = 'day' or $unit = 'knot'"><xsl:value-of select="concat($number, ' ', $w[@id = concat('unit-', $unit)])"/></xsl:when>
      <xsl:when test="contains('JFMASOND', substring(concat($unit, 'x'), 1, 1)) and $months[. = substring-before($unit, ' ')]">
        <xsl:call-template name="date">
          <xsl:with-param name="day" select="number($number)"/>
          <xsl:with-param name="month" select="count($months[. = substring-before($unit, ' ')]/preceding-sibling::month) + 1"/>
          <xsl:with-param name="year" select="substring-after($unit, ' ')"/>
        </xsl:call-template>
      </xsl:when>
      <xsl:otherwise><xsl:value-of select="$text"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>
  <xsl:variable name="months" select="document('words-en-US.xml')/words/date/month"/>

  <!-- "none or mild", "speaker, lights", "diving-doctor"; what is no choice stays. -->
  <xsl:template name="choices">
    <xsl:param name="text"/>
    <xsl:variable name="between">
      <xsl:choose>
        <xsl:when test="contains($text, ' or ')"> or </xsl:when>
        <xsl:when test="contains($text, ' and ')"> and </xsl:when>
        <xsl:when test="contains($text, ', ')">, </xsl:when>
      </xsl:choose>
    </xsl:variable>
    <xsl:variable name="first">
      <xsl:if test="$between = ''"><xsl:value-of select="translate($text, '-', ' ')"/></xsl:if>
      <xsl:if test="$between != ''"><xsl:value-of select="translate(substring-before($text, $between), '-', ' ')"/></xsl:if>
    </xsl:variable>
    <xsl:variable name="known"><xsl:call-template name="known"><xsl:with-param name="text" select="string($first)"/></xsl:call-template></xsl:variable>
    <xsl:choose>
      <xsl:when test="$known = ''"><xsl:value-of select="$text"/></xsl:when>
      <xsl:when test="$between = ''"><xsl:value-of select="$known"/></xsl:when>
      <xsl:otherwise>
        <xsl:value-of select="$known"/>
        <xsl:if test="$between = ', '">, </xsl:if>
        <xsl:if test="$between != ', '"><xsl:value-of select="concat(' ', $w[@id = normalize-space($between)], ' ')"/></xsl:if>
        <xsl:call-template name="choices"><xsl:with-param name="text" select="substring-after($text, $between)"/></xsl:call-template>
      </xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <!-- ===== what a control does: "breath hold at most 10 s; robe yes; likelihood −1" ===== -->

  <xsl:key name="changes" match="/assessment/controls/control/change" use="../@ref"/>
  <xsl:template match="control/effect/text()">
    <xsl:call-template name="effects"><xsl:with-param name="text" select="string(.)"/><xsl:with-param name="changes" select="../../change"/></xsl:call-template>
  </xsl:template>
  <xsl:template match="finding/control/@changes | duty/control/@changes">
    <xsl:attribute name="changes">
      <xsl:call-template name="effects"><xsl:with-param name="text" select="string(.)"/><xsl:with-param name="changes" select="key('changes', ../@ref)"/></xsl:call-template>
    </xsl:attribute>
  </xsl:template>

  <xsl:template name="effects">
    <xsl:param name="text"/>
    <xsl:param name="changes"/>
    <xsl:variable name="one" select="substring-before(concat($text, '; '), '; ')"/>
    <xsl:variable name="fact">
      <xsl:for-each select="$changes[starts-with($one, concat(translate(@fact, '-', ' '), ' '))]">
        <xsl:sort select="string-length(@fact)" data-type="number" order="descending"/>
        <xsl:if test="position() = 1"><xsl:value-of select="translate(@fact, '-', ' ')"/></xsl:if>
      </xsl:for-each>
    </xsl:variable>
    <xsl:choose>
      <xsl:when test="$fact != '' and $terms">
        <xsl:call-template name="term"><xsl:with-param name="text" select="string($fact)"/></xsl:call-template>
        <xsl:call-template name="changed"><xsl:with-param name="to" select="substring($one, string-length($fact) + 2)"/></xsl:call-template>
      </xsl:when>
      <xsl:when test="$terms and (starts-with($one, 'likelihood ') or starts-with($one, 'severity '))">
        <xsl:value-of select="concat($w[@id = substring-before($one, ' ')], ' ', substring-after($one, ' '))"/>
      </xsl:when>
      <xsl:otherwise><xsl:value-of select="$one"/></xsl:otherwise>
    </xsl:choose>
    <xsl:if test="contains($text, '; ')">
      <xsl:text>; </xsl:text>
      <xsl:call-template name="effects"><xsl:with-param name="text" select="substring-after($text, '; ')"/><xsl:with-param name="changes" select="$changes"/></xsl:call-template>
    </xsl:if>
  </xsl:template>

  <xsl:template name="changed">
    <xsl:param name="to"/>
    <xsl:choose>
      <xsl:when test="starts-with($to, 'at most ')"><xsl:text> </xsl:text><xsl:call-template name="filled"><xsl:with-param name="id" select="'reach-to'"/><xsl:with-param name="n" select="substring-after($to, 'at most ')"/></xsl:call-template></xsl:when>
      <xsl:when test="starts-with($to, 'at least ')"><xsl:text> </xsl:text><xsl:call-template name="filled"><xsl:with-param name="id" select="'reach-from'"/><xsl:with-param name="n" select="substring-after($to, 'at least ')"/></xsl:call-template></xsl:when>
      <xsl:otherwise><xsl:value-of select="$colon"/><xsl:call-template name="value"><xsl:with-param name="of" select="$to"/></xsl:call-template></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <xsl:template match="text()" mode="term">
    <xsl:call-template name="term"><xsl:with-param name="text" select="string(.)"/></xsl:call-template>
  </xsl:template>

  <!-- "Hal in “the leap”", "Drew, post in “the leap”", "water of Tank 2", "Hal on Day 1": what a subject is called that nobody named. -->
  <xsl:template match="@subject-label | @scope-label | subject/@label">
    <xsl:attribute name="{name()}"><xsl:call-template name="label"><xsl:with-param name="text" select="string(.)"/></xsl:call-template></xsl:attribute>
  </xsl:template>

  <xsl:template name="label">
    <xsl:param name="text"/>
    <xsl:choose>
      <xsl:when test="contains($text, ', dive log of ')">
        <xsl:value-of select="concat(substring-before($text, ', dive log of '), ', ', $w[@id = 'label-log'], ' ', substring-after($text, ', dive log of '))"/>
      </xsl:when>
      <xsl:when test="contains($text, ', post in “')">
        <xsl:value-of select="concat(substring-before($text, ', post in “'), ', ', $said-label-post, ' “', substring-after($text, ', post in “'))"/>
      </xsl:when>
      <xsl:when test="contains($text, ' in “')">
        <xsl:value-of select="concat(substring-before($text, ' in “'), ' ', $said-label-in, ' “', substring-after($text, ' in “'))"/>
      </xsl:when>
      <xsl:when test="$terms and contains($text, ' of ') and contains($parts, concat(' ', substring-before($text, ' of '), ' '))">
        <xsl:call-template name="term"><xsl:with-param name="text" select="substring-before($text, ' of ')"/></xsl:call-template>
        <xsl:value-of select="concat(' (', substring-after($text, ' of '), ')')"/>
      </xsl:when>
      <xsl:when test="$terms and contains(../@subject, '@') and contains($text, ' on ')">
        <xsl:value-of select="concat(substring-before($text, ' on '), ', ', substring-after($text, ' on '))"/>
      </xsl:when>
      <xsl:otherwise><xsl:value-of select="$text"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>
  <!-- What a site has one of each. -->
  <xsl:variable name="parts" select="' air basin deck emergency openwater plant power structure water '"/>

  <!-- "age ((withheld)) at least 18 years" -->
  <xsl:template match="@withheld">
    <xsl:variable name="mark" select="'(withheld)'"/>
    <xsl:variable name="text">
      <xsl:if test="not(contains(., $mark))"><xsl:value-of select="."/></xsl:if>
      <xsl:if test="contains(., $mark)"><xsl:value-of select="concat(substring-before(., $mark), $said-withheld, substring-after(., $mark))"/></xsl:if>
    </xsl:variable>
    <xsl:attribute name="{name()}">
      <xsl:call-template name="decimals"><xsl:with-param name="text" select="string($text)"/></xsl:call-template>
    </xsl:attribute>
  </xsl:template>

  <!-- ===== sentences: made anew of what stands beside them in parts ===== -->

  <xsl:key name="band" match="/assessment/matrix/band" use="@id"/>
  <xsl:variable name="upper" select="'ABCDEFGHIJKLMNOPQRSTUVWXYZÀÂÉÈÊÎÔÛÄÖÜÁÍÓÚÑ'"/>
  <xsl:variable name="lower" select="'abcdefghijklmnopqrstuvwxyzàâéèêîôûäöüáíóúñ'"/>

  <!-- English is not made anew, nor is what an older assessment does not say in parts. -->
  <xsl:template match="margin/@title | margin/@words | way/@title | way/@words | way/@to | way/@then | worse/@words | when/@text | condition/@text" priority="1">
    <xsl:variable name="made"><xsl:if test="$terms"><xsl:apply-templates select="." mode="made"/></xsl:if></xsl:variable>
    <xsl:attribute name="{name()}">
      <xsl:value-of select="$made"/>
      <xsl:if test="$made = ''"><xsl:call-template name="said"/></xsl:if>
    </xsl:attribute>
  </xsl:template>
  <xsl:template match="@*" mode="made"/>
  <xsl:template match="when/@text | condition/@text" mode="made" priority="-0.4"><xsl:call-template name="decided"/></xsl:template>
  <xsl:template match="condition/@withheld | when/@withheld | skipped/@because" priority="1">
    <xsl:attribute name="{name()}"><xsl:call-template name="decided"/></xsl:attribute>
  </xsl:template>

  <!-- "breath hold", "temperature (water)", "length (red coat)". -->
  <xsl:template match="@title[../@fact]" mode="made"><xsl:apply-templates select=".." mode="fact"/></xsl:template>
  <xsl:template match="*" mode="fact">
    <xsl:apply-templates select="@fact" mode="term"/>
    <xsl:if test="@entity | @of">
      <xsl:text> (</xsl:text><xsl:apply-templates select="@entity" mode="term"/>
      <xsl:call-template name="label"><xsl:with-param name="text" select="string(@of)"/></xsl:call-template><xsl:text>)</xsl:text>
    </xsl:if>
  </xsl:template>

  <xsl:template match="margin/@words[../@where]" mode="made"><xsl:apply-templates select=".." mode="sentence"/></xsl:template>
  <xsl:template match="margin" mode="sentence">
    <xsl:call-template name="stand"><xsl:with-param name="band" select="@then-band"/><xsl:with-param name="score" select="@then-score"/><xsl:with-param name="state" select="@then-state"/></xsl:call-template>
    <xsl:if test="@side = 'inside'"><xsl:value-of select="concat(' ', $said-margin-only)"/></xsl:if>
    <xsl:text> </xsl:text>
    <xsl:call-template name="filled"><xsl:with-param name="id" select="concat('beyond-', @where)"/><xsl:with-param name="n" select="@edge"/></xsl:call-template>
    <xsl:text>; </xsl:text>
    <xsl:choose>
      <xsl:when test="@side = 'inside'"><xsl:value-of select="concat($said-margin-may, ' ')"/><xsl:apply-templates select="." mode="now"/></xsl:when>
      <xsl:otherwise>
        <xsl:value-of select="concat($said-margin-now, ' ')"/><xsl:apply-templates select="." mode="now"/><xsl:text>; </xsl:text>
        <xsl:choose>
          <xsl:when test="@away"><xsl:call-template name="filled"><xsl:with-param name="id" select="'margin-away'"/><xsl:with-param name="n" select="@away"/></xsl:call-template></xsl:when>
          <xsl:otherwise><xsl:value-of select="$said-margin-edge"/></xsl:otherwise>
        </xsl:choose>
      </xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <xsl:template match="*" mode="now">
    <xsl:choose>
      <xsl:when test="@moved-to">
        <xsl:call-template name="decimals"><xsl:with-param name="text" select="string(@moved-to)"/></xsl:call-template>
        <xsl:value-of select="concat(' ', $said-margin-moved)"/>
      </xsl:when>
      <xsl:when test="@now"><xsl:call-template name="value"><xsl:with-param name="of" select="@now"/></xsl:call-template></xsl:when>
      <xsl:otherwise><xsl:value-of select="$said-margin-unknown"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <xsl:template match="way/@words[../@where]" mode="made">
    <xsl:apply-templates select=".." mode="fact"/><xsl:if test="../@where = 'is'"><xsl:value-of select="$words/@before-colon"/>:</xsl:if><xsl:text> </xsl:text>
    <xsl:apply-templates select=".." mode="to"/>
    <xsl:value-of select="concat('; ', $said-margin-now, ' ')"/><xsl:apply-templates select=".." mode="now"/>
  </xsl:template>
  <xsl:template match="way/@to[../@where]" mode="made"><xsl:apply-templates select=".." mode="to"/></xsl:template>
  <xsl:template match="way" mode="to">
    <xsl:choose>
      <xsl:when test="@where = 'is'"><xsl:call-template name="value"><xsl:with-param name="of" select="@goal"/></xsl:call-template></xsl:when>
      <xsl:otherwise><xsl:call-template name="filled"><xsl:with-param name="id" select="concat('reach-', @where)"/><xsl:with-param name="n" select="@goal"/></xsl:call-template></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <!-- A stop or a note has no band: "possible" is what it then is. -->
  <xsl:template match="way/@then" mode="made">
    <xsl:call-template name="stand">
      <xsl:with-param name="band" select="../@band"/><xsl:with-param name="score" select="../@score"/>
      <xsl:with-param name="state">
        <xsl:choose>
          <xsl:when test="../@none or ../@state = 'gone'">not-found</xsl:when>
          <xsl:when test="../@state = 'possible'"><xsl:value-of select="concat('possible-', ../../@word)"/></xsl:when>
          <xsl:when test="../@state = 'certain'"><xsl:value-of select="../../@word"/></xsl:when>
          <xsl:otherwise><xsl:value-of select="../@state"/></xsl:otherwise>
        </xsl:choose>
      </xsl:with-param>
    </xsl:call-template>
  </xsl:template>

  <xsl:template match="worse/@words[../@then-band or ../@then-state]" mode="made">
    <xsl:variable name="it" select=".."/>
    <xsl:choose>
      <xsl:when test="$it/@finding">
        <xsl:value-of select="concat($it/@finding, ' ')"/><xsl:apply-templates select="$it/@title" mode="term"/><xsl:value-of select="$colon"/>
        <xsl:call-template name="stand"><xsl:with-param name="band" select="$it/@now-band"/><xsl:with-param name="score" select="$it/@now-score"/><xsl:with-param name="state" select="$it/@now-state"/></xsl:call-template>
        <xsl:text> → </xsl:text>
      </xsl:when>
      <xsl:otherwise>
        <xsl:value-of select="concat($said-shift-new, ' ')"/><xsl:apply-templates select="$it/@title" mode="term"/>
        <xsl:text>, </xsl:text><xsl:call-template name="label"><xsl:with-param name="text" select="$it/@subject-label"/></xsl:call-template><xsl:value-of select="$colon"/>
      </xsl:otherwise>
    </xsl:choose>
    <xsl:call-template name="stand"><xsl:with-param name="band" select="$it/@then-band"/><xsl:with-param name="score" select="$it/@then-score"/><xsl:with-param name="state" select="$it/@then-state"/></xsl:call-template>
  </xsl:template>

  <!-- A condition that reads the same is printed once: both are made alike. -->
  <xsl:template match="when/@text[../@where]" mode="made"><xsl:apply-templates select=".." mode="sentence"/></xsl:template>
  <xsl:template match="condition/@text[. = ../../when[@where]/@text]" mode="made"><xsl:apply-templates select="../../when[@where][@text = current()][1]" mode="sentence"/></xsl:template>
  <xsl:template match="when" mode="sentence">
    <xsl:apply-templates select="." mode="fact"/><xsl:if test="@where = 'is'"><xsl:value-of select="$words/@before-colon"/>:</xsl:if><xsl:text> </xsl:text>
    <xsl:choose>
      <xsl:when test="@where = 'is'"><xsl:call-template name="value"><xsl:with-param name="of" select="@low"/></xsl:call-template></xsl:when>
      <xsl:otherwise><xsl:call-template name="filled"><xsl:with-param name="id" select="concat('reach-', @where)"/><xsl:with-param name="n" select="@low"/><xsl:with-param name="m" select="@high"/></xsl:call-template></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <!-- What a course decided: "congested: yes (not known)", "water depth (3.4 m) > 1.2 m". -->
  <xsl:template name="decided">
    <xsl:variable name="sign" select="substring(translate(., translate(., '&lt;>≤≥', ''), ''), 1, 1)"/>
    <xsl:variable name="between" select="concat(' ', $sign, ' ')"/>
    <xsl:variable name="open" select="' (not known)'"/>
    <xsl:choose>
      <xsl:when test="not($terms)"><xsl:value-of select="."/></xsl:when>
      <xsl:when test="$sign != '' and contains(., $between)">
        <xsl:call-template name="formula"><xsl:with-param name="text" select="substring-before(., $between)"/></xsl:call-template>
        <xsl:value-of select="$between"/>
        <xsl:call-template name="formula"><xsl:with-param name="text" select="substring-after(., $between)"/></xsl:call-template>
      </xsl:when>
      <xsl:when test="contains(., ': ')">
        <xsl:call-template name="named"><xsl:with-param name="text" select="substring-before(., ': ')"/></xsl:call-template>
        <xsl:value-of select="$colon"/>
        <xsl:call-template name="value"><xsl:with-param name="of" select="substring-before(concat(substring-after(., ': '), $open), $open)"/></xsl:call-template>
        <xsl:if test="contains(., $open)"><xsl:value-of select="concat(' (', $said-margin-unknown, ')')"/></xsl:if>
      </xsl:when>
      <xsl:otherwise><xsl:call-template name="said"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <!-- A fact, or with what it is of: "depth", "water depth". -->
  <xsl:template name="named">
    <xsl:param name="text"/>
    <xsl:variable name="fact"><xsl:call-template name="known"><xsl:with-param name="text" select="$text"/></xsl:call-template></xsl:variable>
    <xsl:value-of select="$fact"/>
    <xsl:if test="$fact = ''">
      <xsl:variable name="of"><xsl:call-template name="known"><xsl:with-param name="text" select="substring-before($text, ' ')"/></xsl:call-template></xsl:variable>
      <xsl:variable name="its"><xsl:if test="$of != ''"><xsl:call-template name="known"><xsl:with-param name="text" select="substring-after($text, ' ')"/></xsl:call-template></xsl:if></xsl:variable>
      <xsl:choose>
        <xsl:when test="$its != ''"><xsl:value-of select="concat($its, ' (', $of, ')')"/></xsl:when>
        <xsl:otherwise><xsl:value-of select="$text"/></xsl:otherwise>
      </xsl:choose>
    </xsl:if>
  </xsl:template>

  <!-- How it stands, as in a sentence: "very high 15", "not found". -->
  <xsl:template name="stand">
    <xsl:param name="band"/>
    <xsl:param name="score"/>
    <xsl:param name="state"/>
    <xsl:choose>
      <xsl:when test="$band">
        <xsl:variable name="word"><xsl:apply-templates select="key('band', $band)/@word" mode="term"/></xsl:variable>
        <xsl:value-of select="concat(translate(substring($word, 1, 1), $upper, $lower), substring($word, 2))"/>
        <xsl:if test="$score"><xsl:value-of select="concat(' ', $score)"/></xsl:if>
      </xsl:when>
      <xsl:otherwise><xsl:call-template name="word"><xsl:with-param name="id" select="concat('stand-', $state)"/></xsl:call-template></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <xsl:template name="filled">
    <xsl:param name="id"/>
    <xsl:param name="n"/>
    <xsl:param name="m"/>
    <xsl:variable name="form"><xsl:call-template name="word"><xsl:with-param name="id" select="$id"/></xsl:call-template></xsl:variable>
    <xsl:variable name="after" select="substring-after($form, '{n}')"/>
    <xsl:value-of select="substring-before($form, '{n}')"/>
    <xsl:call-template name="value"><xsl:with-param name="of" select="$n"/></xsl:call-template>
    <xsl:choose>
      <xsl:when test="contains($after, '{m}')">
        <xsl:value-of select="substring-before($after, '{m}')"/>
        <xsl:call-template name="value"><xsl:with-param name="of" select="$m"/></xsl:call-template>
        <xsl:value-of select="substring-after($after, '{m}')"/>
      </xsl:when>
      <xsl:otherwise><xsl:value-of select="$after"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <!-- A number with the language's decimal mark, or the word for a choice. -->
  <xsl:template name="value">
    <xsl:param name="of"/>
    <xsl:variable name="text"><xsl:call-template name="worded"><xsl:with-param name="text" select="string($of)"/></xsl:call-template></xsl:variable>
    <xsl:call-template name="decimals"><xsl:with-param name="text" select="string($text)"/></xsl:call-template>
  </xsl:template>

  <!-- ===== values ===== -->

  <!-- Yes and no stay: the sheets choose by them. -->
  <xsl:template match="fact/@text[. != 'yes' and . != 'no'] | rests/@text[. != 'yes' and . != 'no'] | value/@text
    | @now | @to | @edge | @plausible | @best | @planned | @recorded | step/@takes">
    <xsl:attribute name="{name()}"><xsl:call-template name="value"><xsl:with-param name="of" select="."/></xsl:call-template></xsl:attribute>
  </xsl:template>

  <!-- What a form asks for. -->
  <xsl:template match="answer/@unit[. = 'day' or . = 'years' or . = 'knot']">
    <xsl:attribute name="unit"><xsl:value-of select="$w[@id = concat('unit-', current())]"/></xsl:attribute>
  </xsl:template>

  <xsl:template match="value/@names | value/@working">
    <xsl:attribute name="{name()}"><xsl:call-template name="formula"><xsl:with-param name="text" select="string(.)"/></xsl:call-template></xsl:attribute>
  </xsl:template>

  <!-- "greatest of (0 s, 12 March 2027 − (not known)) = an unknown time", "water depth (3.4 m)": what stands between the
       signs, each by itself. -->
  <xsl:template name="formula">
    <xsl:param name="text"/>
    <xsl:variable name="said"><xsl:call-template name="pieces"><xsl:with-param name="text" select="$text"/></xsl:call-template></xsl:variable>
    <xsl:call-template name="decimals"><xsl:with-param name="text" select="string($said)"/></xsl:call-template>
  </xsl:template>
  <xsl:template name="pieces">
    <xsl:param name="text"/>
    <xsl:param name="marked" select="translate($text, '()+−×÷=,;^√…', '||||||||||||')"/>
    <xsl:variable name="length" select="string-length(substring-before(concat($marked, '|'), '|'))"/>
    <xsl:variable name="sign" select="substring($text, $length + 1, 1)"/>
    <xsl:call-template name="piece">
      <xsl:with-param name="text" select="substring($text, 1, $length)"/><xsl:with-param name="sign" select="$sign"/>
    </xsl:call-template>
    <xsl:value-of select="$sign"/>
    <xsl:if test="$sign != ''">
      <xsl:call-template name="pieces">
        <xsl:with-param name="text" select="substring($text, $length + 2)"/><xsl:with-param name="marked" select="substring($marked, $length + 2)"/>
      </xsl:call-template>
    </xsl:if>
  </xsl:template>

  <!-- A number, a name, or a function that is called: that has a name in the rule files alone. -->
  <xsl:template name="piece">
    <xsl:param name="text"/>
    <xsl:param name="sign"/>
    <xsl:variable name="bare" select="normalize-space($text)"/>
    <xsl:if test="starts-with($text, ' ')"><xsl:text> </xsl:text></xsl:if>
    <xsl:choose>
      <xsl:when test="$bare = ''"/>
      <xsl:when test="contains($digits, substring($bare, 1, 1))"><xsl:call-template name="measured"><xsl:with-param name="text" select="$bare"/></xsl:call-template></xsl:when>
      <xsl:when test="$bare = 'withheld'"><xsl:value-of select="translate($said-withheld, '()', '')"/></xsl:when>
      <xsl:when test="$sign = '(' and substring($text, string-length($text)) != ' '"><xsl:value-of select="$bare"/></xsl:when>
      <xsl:otherwise><xsl:call-template name="named"><xsl:with-param name="text" select="$bare"/></xsl:call-template></xsl:otherwise>
    </xsl:choose>
    <xsl:if test="$bare != '' and substring($text, string-length($text)) = ' '"><xsl:text> </xsl:text></xsl:if>
  </xsl:template>

  <xsl:template match="@words | @then | @at | @depth | @time | @breath-hold | @seven-days | @minutes">
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
    <xsl:call-template name="date">
      <xsl:with-param name="weekday" select="$weekday"/><xsl:with-param name="day" select="$day"/><xsl:with-param name="month" select="$month"/><xsl:with-param name="year" select="$year"/>
    </xsl:call-template>
  </xsl:template>

  <xsl:template name="date">
    <xsl:param name="weekday"/>
    <xsl:param name="day"/>
    <xsl:param name="month"/>
    <xsl:param name="year"/>
    <xsl:variable name="form" select="$words/date"/>
    <xsl:for-each select="$form/part[@is != 'weekday' or $weekday != '']">
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
            <xsl:variable name="all" select="key('rule', $id)"/>
            <xsl:variable name="lacks">
              <xsl:apply-templates select="@title | @harm | $all/@evidence | $all/@reasoning | $all/because/@form | $all/because[not(@form)]/text()" mode="lacks"/>
            </xsl:variable>
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
    <xsl:variable name="known"><xsl:call-template name="known"><xsl:with-param name="text" select="string(.)"/></xsl:call-template></xsl:variable>
    <xsl:if test="$known = ''">x</xsl:if>
  </xsl:template>
</xsl:stylesheet>
