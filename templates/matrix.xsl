<?xml version="1.0" encoding="UTF-8"?>
<!-- The matrix three times with the count of findings in each cell, and the scales. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">

  <xsl:key name="cell" match="/assessment/matrix/cell" use="concat(@likelihood, ' ', @severity)"/>
  <xsl:key name="scored" match="/assessment/findings/finding[@word = 'hazard']/score[@worst-band]"
    use="concat(@as, ' ', @worst-likelihood, ' ', @worst-severity)"/>

  <xsl:template name="matrices">
    <section aria-labelledby="matrix">
      <xsl:call-template name="section-head"><xsl:with-param name="id" select="'matrix'"/></xsl:call-template>
      <xsl:call-template name="task-matrix"/>
      <div class="matrix-block">
      <h3><xsl:value-of select="$w[@id = 'all-findings']"/></h3>
      <div class="matrices">
        <xsl:call-template name="one-matrix"><xsl:with-param name="as" select="'described'"/></xsl:call-template>
        <xsl:call-template name="one-matrix"><xsl:with-param name="as" select="'in-place'"/></xsl:call-template>
        <xsl:call-template name="one-matrix"><xsl:with-param name="as" select="'planned'"/></xsl:call-template>
      </div>
      <p class="axis"><span class="label"><xsl:value-of select="$w[@id = 'across']"/></span>
        <xsl:for-each select="matrix/severity"><xsl:sort select="@level" data-type="number"/>
          <xsl:if test="position() &gt; 1"> · </xsl:if><b><xsl:value-of select="@level"/></b><xsl:text> </xsl:text><xsl:value-of select="@word"/>
        </xsl:for-each></p>
      <p class="axis"><span class="label"><xsl:value-of select="$w[@id = 'upward']"/></span>
        <xsl:for-each select="matrix/likelihood"><xsl:sort select="@level" data-type="number"/>
          <xsl:if test="position() &gt; 1"> · </xsl:if><b><xsl:value-of select="@level"/></b><xsl:text> </xsl:text><xsl:value-of select="@word"/>
        </xsl:for-each></p>
      <xsl:call-template name="band-key"/>
      </div>
    </section>
  </xsl:template>

  <xsl:template name="one-matrix">
    <xsl:param name="as"/>
    <div>
    <table class="matrix">
      <caption><xsl:value-of select="$w[@id = concat('m-', $as)]"/></caption>
      <thead>
        <tr>
          <th scope="col" class="corner"><xsl:value-of select="$w[@id = 'likelihood']"/></th>
          <xsl:for-each select="matrix/severity">
            <xsl:sort select="@level" data-type="number"/>
            <th scope="col"><xsl:value-of select="@level"/></th>
          </xsl:for-each>
        </tr>
      </thead>
      <tbody>
        <xsl:for-each select="matrix/likelihood">
          <xsl:sort select="@level" data-type="number" order="descending"/>
          <xsl:variable name="l" select="@level"/>
          <tr>
            <th scope="row"><xsl:value-of select="@level"/></th>
            <xsl:for-each select="../severity">
              <xsl:sort select="@level" data-type="number"/>
              <xsl:call-template name="cell">
                <xsl:with-param name="place" select="concat($l, ' ', @level)"/>
                <xsl:with-param name="as" select="$as"/>
              </xsl:call-template>
            </xsl:for-each>
          </tr>
        </xsl:for-each>
      </tbody>
    </table>
    </div>
  </xsl:template>

  <xsl:template name="cell">
    <xsl:param name="place"/>
    <xsl:param name="as"/>
    <xsl:variable name="band" select="key('cell', $place)/@band"/>
    <xsl:variable name="n" select="count(key('scored', concat($as, ' ', $place)))"/>
    <xsl:variable name="fill"><xsl:call-template name="fill"><xsl:with-param name="band" select="$band"/></xsl:call-template></xsl:variable>
    <td class="cell f{$fill}">
      <span>
        <xsl:if test="$n &gt; 0"><xsl:attribute name="class">counted</xsl:attribute></xsl:if>
        <xsl:value-of select="key('band', $band)/@letter"/>
        <xsl:if test="$n &gt; 0"><xsl:text> </xsl:text><b><xsl:value-of select="$n"/></b></xsl:if>
      </span>
    </td>
  </xsl:template>

  <xsl:template name="scales">
    <section aria-labelledby="scales">
      <xsl:call-template name="section-head"><xsl:with-param name="id" select="'scales'"/></xsl:call-template>
      <div class="two">
        <xsl:call-template name="scale"><xsl:with-param name="steps" select="matrix/likelihood"/><xsl:with-param name="word" select="'likelihood'"/></xsl:call-template>
        <xsl:call-template name="scale"><xsl:with-param name="steps" select="matrix/severity"/><xsl:with-param name="word" select="'severity'"/></xsl:call-template>
      </div>
      <div class="scroll" tabindex="0" role="group" aria-labelledby="scales">
      <table>
        <caption><xsl:value-of select="$w[@id = 'band']"/></caption>
        <thead><tr>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'band'"/></xsl:call-template>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'above-line'"/></xsl:call-template>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'who-signs'"/></xsl:call-template>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'looked-again'"/></xsl:call-template>
        </tr></thead>
        <tbody>
          <xsl:for-each select="matrix/band">
            <xsl:sort select="@rank" data-type="number" order="descending"/>
            <tr>
              <th scope="row"><xsl:call-template name="band"><xsl:with-param name="band" select="@id"/></xsl:call-template></th>
              <td><xsl:value-of select="$w[@id = current()/@above]"/></td>
              <td><xsl:value-of select="@sign"/></td>
              <td><xsl:value-of select="@review"/></td>
            </tr>
          </xsl:for-each>
        </tbody>
      </table>
      </div>
      <p class="quiet"><xsl:value-of select="concat($w[@id = 'matrix-source'], $colon, matrix/@title)"/>
        <xsl:if test="matrix/@source"><xsl:value-of select="concat('. ', $w[@id = 'source'], $colon, matrix/@source)"/></xsl:if></p>
    </section>
  </xsl:template>

  <xsl:template name="scale">
    <xsl:param name="steps"/>
    <xsl:param name="word"/>
    <div>
      <table>
        <caption><xsl:value-of select="$w[@id = $word]"/></caption>
        <thead><tr>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'level'"/></xsl:call-template>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'word'"/></xsl:call-template>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'meaning'"/></xsl:call-template>
        </tr></thead>
        <tbody>
          <xsl:for-each select="$steps">
            <xsl:sort select="@level" data-type="number" order="descending"/>
            <tr><th scope="row"><xsl:value-of select="@level"/></th><td><xsl:value-of select="@word"/></td><td><xsl:value-of select="@meaning"/></td></tr>
          </xsl:for-each>
        </tbody>
      </table>
    </div>
  </xsl:template>
</xsl:stylesheet>
