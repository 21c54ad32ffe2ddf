<?xml version="1.0" encoding="UTF-8"?>
<!-- What the dossier still needs, as a form for each who may know: filled in on
     the screen and printed, or by pen. Nothing runs in it and nothing is sent. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">

  <xsl:key name="needed" match="open-facts/fact[@state = 'unknown']" use="string(@asked)"/>

  <xsl:template match="assessment" mode="form">
    <section class="document" aria-label="{$w[@id = 'sheet-form']}">
      <xsl:call-template name="doc-head">
        <xsl:with-param name="title" select="$w[@id = 'sheet-form']"/>
        <xsl:with-param name="lead" select="'form-lead'"/><xsl:with-param name="id" select="'form'"/>
      </xsl:call-template>
      <xsl:if test="not(open-facts/fact[@state = 'unknown'])"><p><xsl:value-of select="$w[@id = 'form-none']"/></p></xsl:if>
      <xsl:for-each select="open-facts/fact[@state = 'unknown'][count(. | key('needed', string(@asked))[1]) = 1][key('needed', string(@asked))[$sheet != 'set' or @sees != 'confidential']]">
        <section class="department">
          <xsl:call-template name="part"><xsl:with-param name="text"><xsl:call-template name="who-knows"/></xsl:with-param></xsl:call-template>
          <p class="filled"><xsl:value-of select="$w[@id = 'form-by']"/>
            <xsl:text> </xsl:text><input type="text" class="line" aria-label="{$w[@id = 'form-by']}"/><xsl:text> </xsl:text>
            <xsl:value-of select="$w[@id = 'form-on']"/>
            <xsl:text> </xsl:text><input type="text" class="line short" aria-label="{$w[@id = 'form-on']}"/></p>
          <ol class="asks"><xsl:apply-templates select="key('needed', string(@asked))[$sheet != 'set' or @sees != 'confidential']" mode="form"/></ol>
        </section>
      </xsl:for-each>
    </section>
  </xsl:template>

  <xsl:template match="open-facts/fact" mode="form">
    <li>
      <p class="ask"><b><xsl:call-template name="question-words"/></b>
        <span class="of"><xsl:value-of select="@subject-label"/><xsl:if test="@measured"><xsl:value-of select="concat(' · ', $w[@id = 'form-how'], ' ', @measured)"/></xsl:if></span></p>
      <p class="reply">
        <xsl:choose>
          <xsl:when test="answer/@form = 'flag'">
            <xsl:call-template name="tick-answers"><xsl:with-param name="choices" select="'yes no '"/></xsl:call-template>
          </xsl:when>
          <xsl:when test="answer/@choices"><xsl:call-template name="tick-answers"><xsl:with-param name="choices" select="concat(normalize-space(answer/@choices), ' ')"/></xsl:call-template></xsl:when>
          <xsl:otherwise>
            <input type="text" class="line short" aria-label="{@title}, {@subject-label}"/>
            <xsl:text> </xsl:text><span class="unit"><xsl:value-of select="answer/@unit"/></span>
            <xsl:if test="answer/@form = 'date'"><xsl:value-of select="$w[@id = 'form-date']"/></xsl:if>
          </xsl:otherwise>
        </xsl:choose>
        <xsl:text> </xsl:text><label class="choice"><input type="checkbox"/><xsl:text> </xsl:text><xsl:value-of select="$w[@id = 'form-unknown']"/></label>
      </p>
    </li>
  </xsl:template>

  <!-- "yes no " as boxes to tick. -->
  <xsl:template name="tick-answers">
    <xsl:param name="choices"/>
    <xsl:if test="$choices != ''">
      <label class="choice"><input type="checkbox"/><xsl:text> </xsl:text><xsl:call-template name="term"><xsl:with-param name="text" select="translate(substring-before($choices, ' '), '-', ' ')"/></xsl:call-template></label>
      <xsl:call-template name="tick-answers"><xsl:with-param name="choices" select="substring-after($choices, ' ')"/></xsl:call-template>
    </xsl:if>
  </xsl:template>
</xsl:stylesheet>
