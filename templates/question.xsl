<?xml version="1.0" encoding="UTF-8"?>
<!-- Open questions, by who knows the answer; whoever can take most away first. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">

  <!-- Where an answer takes something away, or nobody has answered. The binding lies open on the deck:
       what is asked of somebody alone stands on the single sheet only. -->
  <xsl:key name="knows" match="open-facts/fact[@removes &gt; 0 or @state = 'unknown']" use="string(@asked)"/>

  <xsl:template match="assessment" mode="question">
    <section class="document" aria-label="{$w[@id = 'sheet-question']}">
      <xsl:call-template name="doc-head">
        <xsl:with-param name="title" select="$w[@id = 'sheet-question']"/>
        <xsl:with-param name="lead" select="'question-lead'"/><xsl:with-param name="id" select="'question'"/>
      </xsl:call-template>
      <xsl:if test="not(open-facts/fact)"><p><xsl:value-of select="$w[@id = 'none']"/></p></xsl:if>
      <xsl:if test="$sheet = 'set' and open-facts/fact[@sees = 'confidential']"><p class="small"><xsl:value-of select="$w[@id = 'open-hidden']"/></p></xsl:if>
      <xsl:for-each select="open-facts/fact[count(. | key('knows', string(@asked))[1]) = 1][key('knows', string(@asked))[$sheet != 'set' or @sees != 'confidential']]">
        <xsl:sort select="sum(key('knows', string(@asked))/@removes)" data-type="number" order="descending"/>
        <div class="asked-of">
        <xsl:if test="count(key('knows', string(@asked))) &lt; 5"><xsl:attribute name="class">asked-of whole</xsl:attribute></xsl:if>
        <xsl:call-template name="part"><xsl:with-param name="text"><xsl:call-template name="who-knows"/></xsl:with-param></xsl:call-template>
        <table class="questions stack">
          <caption class="away"><xsl:call-template name="who-knows"/></caption>
          <thead><tr><xsl:call-template name="heads"><xsl:with-param name="words" select="'question question-now question-how question-removes question-answer'"/></xsl:call-template></tr></thead>
          <tbody><xsl:apply-templates select="key('knows', string(@asked))[$sheet != 'set' or @sees != 'confidential']" mode="once"/></tbody>
        </table>
        </div>
      </xsl:for-each>
    </section>
  </xsl:template>

  <xsl:template name="who-knows">
    <xsl:value-of select="@asked"/><xsl:if test="not(@asked)"><xsl:value-of select="$w[@id = 'asked-nobody']"/></xsl:if>
  </xsl:template>

  <xsl:template match="open-facts/fact" mode="row">
    <xsl:param name="again"/>
    <tr>
      <th scope="row"><xsl:call-template name="question-words"/><span class="of"><xsl:value-of select="@subject-label"/>
        <xsl:call-template name="asked-again"><xsl:with-param name="again" select="$again"/></xsl:call-template></span></th>
      <td data-h="{$w[@id = 'question-now']}"><xsl:choose>
        <xsl:when test="@withheld"><xsl:value-of select="@withheld"/></xsl:when>
        <xsl:when test="@now"><xsl:value-of select="@now"/></xsl:when>
        <xsl:otherwise><span class="mark unknown"><xsl:value-of select="$w[@id = 'mark-unknown']"/></span></xsl:otherwise>
      </xsl:choose></td>
      <td class="of" data-h="{$w[@id = 'question-how']}"><xsl:value-of select="@measured"/></td>
      <td class="n" data-h="{$w[@id = 'question-removes']}"><b><xsl:value-of select="@removes"/></b></td>
      <td class="pen answer">&#160;</td>
    </tr>
  </xsl:template>

  <xsl:template name="question-words">
    <xsl:choose>
      <xsl:when test="@meaning"><xsl:value-of select="@meaning"/></xsl:when>
      <xsl:otherwise><xsl:value-of select="@title"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>
</xsl:stylesheet>
