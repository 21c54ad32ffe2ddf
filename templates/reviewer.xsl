<?xml version="1.0" encoding="UTF-8"?>
<!-- The reviewer's schedule: what the assessment covers, by which method, on what
     evidence and assumptions, what was waived or changed, what was looked at and
     does not apply, and the digest of everything read. No personal facts. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">
  <xsl:import href="assessment.xsl"/>

  <xsl:variable name="withhold" select="true()"/>
  <xsl:variable name="sections" select="$all-sections[@id = 'scope' or @id = 'limits' or @id = 'matrix' or @id = 'scales' or @id = 'evidence'
    or @id = 'facts' or @id = 'reliance' or @id = 'waivers' or @id = 'rules' or @id = 'looked' or @id = 'inputs' or @id = 'sign']"/>

  <xsl:template match="assessment" mode="title">
    <xsl:value-of select="concat($w[@id = 'sheet-reviewer'], ' · ', production/@title)"/>
  </xsl:template>

  <xsl:template match="assessment" mode="body">
    <header class="cover">
      <p class="kicker"><xsl:value-of select="$w[@id = 'sheet-reviewer']"/></p>
      <h1><xsl:value-of select="$production/@title"/></h1>
      <dl class="strip">
        <xsl:call-template name="cover-line"><xsl:with-param name="word" select="'reference'"/><xsl:with-param name="text" select="$production/@reference"/></xsl:call-template>
        <xsl:call-template name="cover-line"><xsl:with-param name="word" select="'revision'"/><xsl:with-param name="text" select="$production/@revision"/></xsl:call-template>
        <xsl:call-template name="cover-line"><xsl:with-param name="word" select="'dated'"/><xsl:with-param name="text" select="$production/@on"/></xsl:call-template>
        <xsl:call-template name="cover-line"><xsl:with-param name="word" select="'prepared-by'"/><xsl:with-param name="text" select="$production/@by"/></xsl:call-template>
        <xsl:call-template name="cover-line"><xsl:with-param name="word" select="'jurisdiction'"/><xsl:with-param name="text" select="$production/@jurisdiction"/></xsl:call-template>
      </dl>
      <xsl:call-template name="status-box"/>
      <p class="caution-box"><xsl:value-of select="$w[@id = 'caution']"/></p>
    </header>
    <xsl:call-template name="contents"/>
    <main id="content">
      <xsl:call-template name="scope"/>
      <xsl:call-template name="limits"/>
      <xsl:call-template name="matrices"/>
      <xsl:call-template name="waivers"/>
      <xsl:call-template name="looked-at"/>
      <xsl:call-template name="reliance"/>
      <xsl:call-template name="facts"/>
      <xsl:call-template name="evidence"/>
      <xsl:call-template name="rules"/>
      <xsl:call-template name="scales"/>
      <xsl:call-template name="inputs"/>
      <xsl:call-template name="sign-off"/>
    </main>
    <footer class="paper-foot">
      <p class="caution"><xsl:value-of select="$w[@id = 'caution']"/></p>
      <p class="quiet"><xsl:value-of select="$w[@id = 'written-by']"/><xsl:text> </xsl:text><xsl:value-of select="@tankside"/></p>
    </footer>
  </xsl:template>

  <xsl:template name="scope">
    <section aria-labelledby="scope">
      <xsl:call-template name="section-head"><xsl:with-param name="id" select="'scope'"/></xsl:call-template>
      <ul class="points">
        <li><xsl:call-template name="scope-count"><xsl:with-param name="word" select="'n-findings'"/><xsl:with-param name="of" select="findings/finding"/></xsl:call-template>
          <xsl:text>, </xsl:text><xsl:call-template name="scope-count"><xsl:with-param name="word" select="'n-duties'"/><xsl:with-param name="of" select="duties/duty"/></xsl:call-template>
          <xsl:text>, </xsl:text><xsl:call-template name="scope-count"><xsl:with-param name="word" select="'n-looked'"/><xsl:with-param name="of" select="looked-at/rule"/></xsl:call-template></li>
        <li><xsl:value-of select="$w[@id = 'scope-attached']"/></li>
        <li><xsl:value-of select="$w[@id = 'scope-changes']"/><xsl:text> </xsl:text>
          <xsl:for-each select="inputs/set"><xsl:if test="position() &gt; 1">; </xsl:if><span class="path"><xsl:value-of select="@path"/></span></xsl:for-each>
          <xsl:if test="not(inputs/set)"><xsl:value-of select="$w[@id = 'none']"/></xsl:if></li>
      </ul>
      <div class="scroll" tabindex="0" role="group" aria-labelledby="scope">
      <table>
        <caption class="away"><xsl:value-of select="$sections[@id = 'scope']/@title"/></caption>
        <thead><tr>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'when'"/></xsl:call-template>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'where-site'"/></xsl:call-template>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'task'"/></xsl:call-template>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'in-water'"/></xsl:call-template>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'on-deck'"/></xsl:call-template>
        </tr></thead>
        <tbody>
          <xsl:for-each select="schedule/day/task">
            <tr>
              <td><xsl:value-of select="../@date"/><xsl:if test="@start"><xsl:value-of select="concat(' ', @start, '–', @finish)"/></xsl:if></td>
              <td><xsl:value-of select="../@site-label"/></td>
              <th scope="row"><span class="task-no"><xsl:value-of select="position()"/></span><xsl:text> </xsl:text><xsl:value-of select="@title"/></th>
              <td><xsl:for-each select="immersion"><xsl:if test="position() &gt; 1">, </xsl:if><xsl:value-of select="@person-label"/></xsl:for-each></td>
              <td><xsl:for-each select="post"><xsl:if test="position() &gt; 1">, </xsl:if><xsl:apply-templates select="@role" mode="term"/></xsl:for-each></td>
            </tr>
          </xsl:for-each>
        </tbody>
      </table>
      </div>
    </section>
  </xsl:template>

  <xsl:template name="scope-count">
    <xsl:param name="word"/>
    <xsl:param name="of"/>
    <xsl:call-template name="count"><xsl:with-param name="id" select="$word"/><xsl:with-param name="n" select="count($of)"/></xsl:call-template>
  </xsl:template>

  <!-- The findings themselves are not on this paper; of what is withheld, no rule is named. -->
  <xsl:template name="rule-line">
    <p id="rule-{@rule}"><b><xsl:value-of select="@title"/></b>
      <xsl:if test="@rule != 'withheld'">
        <xsl:text> </xsl:text><xsl:value-of select="@rule"/><xsl:text> </xsl:text>
        <span class="path quiet"><xsl:value-of select="concat(@pack, '/', @file, ':', @line)"/></span><xsl:text> </xsl:text>
      </xsl:if>
      <xsl:for-each select="source"><xsl:if test="position() &gt; 1">; </xsl:if><xsl:value-of select="."/></xsl:for-each></p>
  </xsl:template>
</xsl:stylesheet>
