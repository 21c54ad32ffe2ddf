<?xml version="1.0" encoding="UTF-8"?>
<!-- Rules: what was looked at and does not apply; the register of rules and functions. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">

  <xsl:template name="looked-at">
    <section aria-labelledby="looked">
      <xsl:call-template name="section-head"><xsl:with-param name="id" select="'looked'"/></xsl:call-template>
      <xsl:choose>
        <xsl:when test="looked-at/rule">
          <div class="scroll" tabindex="0" role="group" aria-labelledby="looked">
          <table class="looked">
            <caption class="away"><xsl:value-of select="$sections[@id = 'looked']/@title"/></caption>
            <thead><tr>
              <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'rule'"/></xsl:call-template>
              <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'counts'"/></xsl:call-template>
              <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'not-because'"/></xsl:call-template>
            </tr></thead>
            <tbody><xsl:apply-templates select="looked-at/rule"/></tbody>
          </table>
          </div>
        </xsl:when>
        <xsl:otherwise><xsl:call-template name="nothing"/></xsl:otherwise>
      </xsl:choose>
    </section>
  </xsl:template>

  <!-- Reason by reason, with some of those for whom it holds: a reason is often the same for all. -->
  <xsl:template match="looked-at/rule">
    <xsl:variable name="skipped" select="skipped"/>
    <tr>
      <th scope="row"><xsl:value-of select="@title"/></th>
      <td><xsl:value-of select="concat(@each, $colon, @subjects, ' · ', @applied, ' · ', @found)"/></td>
      <td>
        <xsl:for-each select="skipped">
          <xsl:variable name="same" select="$skipped[string(@because) = string(current()/@because)]"/>
          <xsl:if test="count(. | $same[1]) = 1">
            <xsl:if test="position() &gt; 1">; </xsl:if>
            <xsl:if test="@because"><b><xsl:value-of select="@because"/></b><xsl:value-of select="$colon"/></xsl:if>
            <xsl:for-each select="$same[position() &lt;= 2]">
              <xsl:if test="position() &gt; 1">, </xsl:if>
              <xsl:value-of select="@subject-label"/><xsl:if test="not(@subject-label)"><xsl:value-of select="@subject"/></xsl:if>
            </xsl:for-each>
            <xsl:call-template name="more"><xsl:with-param name="n" select="count($same) - 2"/></xsl:call-template>
          </xsl:if>
        </xsl:for-each>
        <xsl:if test="@more &gt; 0"><xsl:text>; </xsl:text>
          <xsl:call-template name="count"><xsl:with-param name="id" select="'n-not-shown'"/><xsl:with-param name="n" select="@more"/></xsl:call-template></xsl:if>
        <span class="of"><span class="path"><xsl:value-of select="concat(@id, ' ', @pack, '/', @file, ':', @line)"/></span>
          <xsl:for-each select="source"><xsl:value-of select="concat(' · ', .)"/></xsl:for-each></span>
      </td>
    </tr>
  </xsl:template>

  <!-- ===== the register of rules and functions ===== -->

  <xsl:template name="rules">
    <xsl:variable name="each" select="(findings/finding | duties/duty)[count(. | key('by-rule', @rule)[1]) = 1]"/>
    <xsl:variable name="functions" select="(findings/finding | duties/duty)/function[count(. | key('by-function', @name)[1]) = 1]"/>
    <section aria-labelledby="rules">
      <xsl:call-template name="section-head"><xsl:with-param name="id" select="'rules'"/></xsl:call-template>
      <xsl:if test="not($each)"><xsl:call-template name="nothing"/></xsl:if>
      <xsl:if test="$each">
        <div class="fact-list">
          <xsl:for-each select="$each"><xsl:sort select="@rule"/><xsl:call-template name="rule-line"/></xsl:for-each>
        </div>
      </xsl:if>
      <xsl:apply-templates select="not-translated"/>
      <xsl:if test="$functions">
        <div class="scroll" tabindex="0" role="group" aria-label="{$w[@id = 'functions']}">
        <table class="function-list">
          <caption><xsl:value-of select="$w[@id = 'functions']"/></caption>
          <thead><tr>
            <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'functions'"/></xsl:call-template>
            <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'formula'"/></xsl:call-template>
            <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'source'"/></xsl:call-template>
            <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'limits'"/></xsl:call-template>
          </tr></thead>
          <tbody>
            <xsl:for-each select="$functions">
              <xsl:sort select="@name"/>
              <tr id="function-{@name}"><th scope="row"><xsl:value-of select="translate(@name, '_', ' ')"/></th>
                <td><xsl:value-of select="@formula"/></td><td><xsl:value-of select="@source"/></td><td><xsl:value-of select="@limits"/></td></tr>
            </xsl:for-each>
          </tbody>
        </table>
        </div>
      </xsl:if>
    </section>
  </xsl:template>

  <!-- Once on the paper, by name: which texts it prints in English because nobody translated them. -->
  <xsl:template match="not-translated">
    <p class="small"><xsl:value-of select="$w[@id = 'in-english-why']"/></p>
    <xsl:if test="*"><p class="small"><span class="label"><xsl:value-of select="$w[@id = 'in-english']"/></span>
      <xsl:for-each select="rule/@id | control/@ref"><xsl:if test="position() &gt; 1">, </xsl:if><xsl:value-of select="."/></xsl:for-each></p></xsl:if>
  </xsl:template>

  <xsl:template name="rule-line">
    <p id="rule-{@rule}"><b><xsl:value-of select="@title"/></b><xsl:text> </xsl:text><xsl:value-of select="@rule"/><xsl:text> </xsl:text>
      <span class="path quiet"><xsl:value-of select="concat(@pack, '/', @file, ':', @line)"/></span>
      <xsl:for-each select="key('by-rule', @rule)"><xsl:text> </xsl:text><a href="#{@id}"><xsl:value-of select="@id"/></a></xsl:for-each></p>
  </xsl:template>
</xsl:stylesheet>
