<?xml version="1.0" encoding="UTF-8"?>
<!-- Record sheets of a day, to fill in by pen: the head count, who was under
     water, the water, the equipment. What the plan says is there already. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">

  <xsl:template match="assessment" mode="record">
    <xsl:apply-templates select="schedule/day" mode="record"/>
    <xsl:if test="not(schedule/day)"><xsl:call-template name="doc-empty"/></xsl:if>
  </xsl:template>

  <xsl:template match="day" mode="record">
    <section class="document" aria-label="{$w[@id = 'sheet-record']}, {@date}">
      <xsl:choose>
        <xsl:when test="position() = 1 or $sheet = 'set'">
          <xsl:call-template name="doc-head">
            <xsl:with-param name="title"><xsl:value-of select="$w[@id = 'sheet-record']"/><xsl:value-of select="$colon"/><xsl:call-template name="day-words"><xsl:with-param name="day" select="."/></xsl:call-template></xsl:with-param>
            <xsl:with-param name="lead" select="'record-lead'"/><xsl:with-param name="id" select="concat('record-', @path)"/>
          </xsl:call-template>
        </xsl:when>
        <xsl:otherwise><h2 class="doc-title"><xsl:value-of select="$w[@id = 'sheet-record']"/><xsl:value-of select="$colon"/><xsl:call-template name="day-words"><xsl:with-param name="day" select="."/></xsl:call-template></h2></xsl:otherwise>
      </xsl:choose>
      <div class="whole"><xsl:call-template name="record-count"/></div>
      <div class="whole"><xsl:call-template name="record-dives"/></div>
      <div class="whole"><xsl:call-template name="record-water"/></div>
      <div class="whole"><xsl:call-template name="record-things"/></div>
      <div class="whole"><xsl:call-template name="record-checks"/></div>
      <p class="signed"><xsl:value-of select="$w[@id = 'record-kept']"/> <xsl:call-template name="blank"/></p>
    </section>
  </xsl:template>

  <!-- Everybody with something to do at the water that day; a box for each count. -->
  <xsl:template name="record-count">
    <xsl:call-template name="part"><xsl:with-param name="word" select="'record-count'"/></xsl:call-template>
    <p class="small"><xsl:value-of select="$w[@id = 'record-count-how']"/></p>
    <div class="scroll" tabindex="0" role="group" aria-label="{$w[@id = 'record-count']}">
    <table class="board count-board">
      <caption class="away"><xsl:value-of select="$w[@id = 'record-count']"/></caption>
      <thead>
        <tr><th scope="col"><xsl:value-of select="$w[@id = 'record-time']"/></th><td/><xsl:call-template name="cells"><xsl:with-param name="n" select="10"/></xsl:call-template></tr>
      </thead>
      <tbody>
        <xsl:for-each select="task/*[self::immersion or self::post][count(. | key('on-day', concat(../../@path, ' ', @person))[1]) = 1]">
          <tr><th scope="row"><xsl:call-template name="person-name"/></th><td class="of"><xsl:apply-templates select="@role" mode="term"/></td>
            <xsl:call-template name="cells"><xsl:with-param name="n" select="10"/></xsl:call-template></tr>
        </xsl:for-each>
        <xsl:call-template name="rows"><xsl:with-param name="n" select="2"/><xsl:with-param name="cells" select="12"/></xsl:call-template>
        <tr><th scope="row"><xsl:value-of select="$w[@id = 'record-total']"/></th><td/><xsl:call-template name="cells"><xsl:with-param name="n" select="10"/></xsl:call-template></tr>
      </tbody>
    </table>
    </div>
  </xsl:template>

  <xsl:template name="record-dives">
    <xsl:call-template name="part"><xsl:with-param name="word" select="'record-dives'"/></xsl:call-template>
    <div class="scroll" tabindex="0" role="group" aria-label="{$w[@id = 'record-dives']}">
    <table class="board dive-board">
      <caption class="away"><xsl:value-of select="$w[@id = 'record-dives']"/></caption>
      <thead><tr><xsl:call-template name="heads"><xsl:with-param name="words" select="'person record-plan dive-under dive-up dive-deepest dive-gas-start dive-gas-end dive-well dive-kept'"/></xsl:call-template></tr></thead>
      <tbody>
        <xsl:for-each select="task/immersion">
          <tr><th scope="row"><xsl:call-template name="person-name"/><span class="of"><xsl:call-template name="hours"><xsl:with-param name="of" select=".."/></xsl:call-template></span></th>
            <td class="of"><xsl:value-of select="concat(@depth, ', ', @time)"/></td>
            <xsl:call-template name="cells"><xsl:with-param name="n" select="7"/></xsl:call-template></tr>
        </xsl:for-each>
        <xsl:call-template name="rows"><xsl:with-param name="n" select="6"/><xsl:with-param name="cells" select="9"/></xsl:call-template>
      </tbody>
    </table>
    </div>
  </xsl:template>

  <xsl:template name="record-water">
    <xsl:variable name="water" select="concat(@site, '/water')"/>
    <xsl:call-template name="part"><xsl:with-param name="word" select="'record-water'"/></xsl:call-template>
    <div class="scroll" tabindex="0" role="group" aria-label="{$w[@id = 'record-water']}">
    <table class="board water-board">
      <caption class="away"><xsl:value-of select="$w[@id = 'record-water']"/></caption>
      <thead><tr><xsl:call-template name="heads"><xsl:with-param name="words" select="'record-time water-temperature water-free water-combined water-ph water-visibility water-bottom water-by'"/></xsl:call-template></tr></thead>
      <tbody>
        <tr><th scope="row"><xsl:value-of select="$w[@id = 'record-stated']"/></th>
          <td><xsl:call-template name="fact-text"><xsl:with-param name="path" select="concat($water, '/temperature')"/></xsl:call-template></td>
          <td><xsl:call-template name="fact-text"><xsl:with-param name="path" select="concat($water, '/free-chlorine')"/></xsl:call-template></td>
          <td><xsl:call-template name="fact-text"><xsl:with-param name="path" select="concat($water, '/combined-chlorine')"/></xsl:call-template></td>
          <td><xsl:call-template name="fact-text"><xsl:with-param name="path" select="concat($water, '/ph')"/></xsl:call-template></td>
          <td><xsl:call-template name="fact-text"><xsl:with-param name="path" select="concat($water, '/visibility')"/></xsl:call-template></td>
          <td/><td/></tr>
        <xsl:call-template name="rows"><xsl:with-param name="n" select="6"/><xsl:with-param name="cells" select="8"/></xsl:call-template>
      </tbody>
    </table>
    </div>
  </xsl:template>

  <!-- Machines, boats, gas, things worn: those this day's tasks name. -->
  <xsl:variable name="things" select="/assessment/subjects/subject[@entity = 'rig' or @entity = 'craft' or @entity = 'prop' or @entity = 'appliance' or @entity = 'supply']"/>

  <xsl:template name="record-things">
    <xsl:variable name="day" select="."/>
    <xsl:call-template name="part"><xsl:with-param name="word" select="'record-things'"/></xsl:call-template>
    <div class="scroll" tabindex="0" role="group" aria-label="{$w[@id = 'record-things']}">
    <table class="board thing-board">
      <caption class="away"><xsl:value-of select="$w[@id = 'record-things']"/></caption>
      <thead><tr><xsl:call-template name="heads"><xsl:with-param name="words" select="'thing thing-stated thing-tried thing-fit thing-remark thing-by'"/></xsl:call-template></tr></thead>
      <tbody>
        <xsl:for-each select="$things">
          <xsl:variable name="label" select="concat(', ', @label, ', ')"/>
          <xsl:if test="@path = $day/task/immersion/@supply
              or $day/task[contains(concat(', ', @rigs, ', ', @crafts, ', ', @props, ', '), $label)]
              or $day/task/immersion[contains(concat(', ', @wears, ', '), $label)]">
            <tr><th scope="row"><xsl:value-of select="@label"/></th>
              <td class="of"><xsl:for-each select="fact[substring(@name, string-length(@name) - 2) = '-on' or contains(@name, '-until')][contains(@text, '-')][@state != 'unknown'][@sees != 'confidential']">
                <xsl:if test="position() &gt; 1">; </xsl:if><xsl:value-of select="concat(@title, ' ', @text)"/></xsl:for-each></td>
              <td><span class="box-inline" aria-hidden="true"/></td><td><span class="box-inline" aria-hidden="true"/></td>
              <xsl:call-template name="cells"><xsl:with-param name="n" select="2"/></xsl:call-template></tr>
          </xsl:if>
        </xsl:for-each>
        <xsl:call-template name="rows"><xsl:with-param name="n" select="2"/><xsl:with-param name="cells" select="6"/></xsl:call-template>
      </tbody>
    </table>
    </div>
  </xsl:template>

  <!-- Controls that the dossier applies here: how each is checked. -->
  <xsl:template name="record-checks">
    <xsl:variable name="here" select="key('applied', @path | @site | task/@path | task/immersion/@path | task/immersion/@person)/.."/>
    <xsl:if test="$here">
      <xsl:call-template name="part"><xsl:with-param name="word" select="'record-checks'"/></xsl:call-template>
      <div class="scroll" tabindex="0" role="group" aria-label="{$w[@id = 'record-checks']}">
      <table class="board check-board">
        <caption class="away"><xsl:value-of select="$w[@id = 'record-checks']"/></caption>
        <thead><tr><xsl:call-template name="heads"><xsl:with-param name="words" select="'control check check-seen check-when check-by'"/></xsl:call-template></tr></thead>
        <tbody>
          <xsl:for-each select="$here">
            <tr><th scope="row"><xsl:value-of select="@title"/></th>
              <td class="of"><xsl:for-each select="check[1]"><xsl:value-of select="@how"/><xsl:if test="@often">, <xsl:value-of select="@often"/></xsl:if><xsl:if test="@who"> (<xsl:value-of select="@who"/>)</xsl:if></xsl:for-each></td>
              <td><span class="box-inline" aria-hidden="true"/></td>
              <xsl:call-template name="cells"><xsl:with-param name="n" select="2"/></xsl:call-template></tr>
          </xsl:for-each>
        </tbody>
      </table>
      </div>
    </xsl:if>
  </xsl:template>
</xsl:stylesheet>
