<?xml version="1.0" encoding="UTF-8"?>
<!-- Briefing cards: one for everybody who goes into the water, each day; four to
     a page, to be cut apart. Plain words. A card has a fixed size, so that names
     and titles are cut where there is no room. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">

  <xsl:template match="assessment" mode="card">
    <div class="cards">
      <xsl:if test="not(schedule/day/task/immersion)"><xsl:call-template name="doc-empty"/></xsl:if>
      <xsl:if test="$sheet = 'card' and schedule/day/task/immersion"><h1 class="away"><xsl:value-of select="$w[@id = 'sheet-card']"/></h1></xsl:if>
      <xsl:for-each select="schedule/day/task/immersion[count(. | key('goes-in', concat(../../@path, ' ', @person))[1]) = 1]">
        <xsl:call-template name="one-card"/>
      </xsl:for-each>
    </div>
  </xsl:template>

  <xsl:template name="one-card">
    <xsl:variable name="all" select="key('goes-in', concat(../../@path, ' ', @person))"/>
    <xsl:variable name="tasks" select="$all/.."/>
    <xsl:variable name="mine" select="key('found', $tasks/@path)[@subject = $all/@path or @subject = $tasks/@path]"/>
    <xsl:variable name="stopped" select="$mine[@word = 'stop'][score[@as = 'in-place'][not(@state = 'gone')]]"/>
    <xsl:variable name="said">
      <div class="card-top">
        <xsl:call-template name="card-tasks"><xsl:with-param name="all" select="$all"/></xsl:call-template>
        <xsl:call-template name="card-hurt"><xsl:with-param name="mine" select="$mine"/><xsl:with-param name="stopped" select="$stopped"/><xsl:with-param name="room" select="4 - count($all[position() &lt;= 2]) - count($stopped[1])"/></xsl:call-template>
      </div>
      <ul class="card-must">
        <xsl:for-each select="$w[starts-with(@id, 'card-must-')]"><li><xsl:value-of select="."/></li></xsl:for-each>
        <xsl:if test="not(key('fact', concat(@path, '/breathes-gas'))/@text = 'no')"><li><xsl:value-of select="$w[@id = 'card-gas']"/></li></xsl:if>
        <xsl:if test="/assessment/people/person[@path = current()/@person]/@under-18 = 'yes'"><li><xsl:value-of select="$w[@id = 'card-young']"/></li></xsl:if>
      </ul>
      <xsl:call-template name="card-call"><xsl:with-param name="tasks" select="$tasks"/></xsl:call-template>
    </xsl:variable>
    <!-- The more there is to say, the smaller the letters: a card has one size, and nothing on it may be cut off. -->
    <xsl:variable name="letters" select="string-length($said) + 60 * count($stopped[1])"/>
    <section class="card">
      <xsl:choose>
        <xsl:when test="$letters &gt; 550"><xsl:attribute name="class">card tight tighter</xsl:attribute></xsl:when>
        <xsl:when test="$letters &gt; 430"><xsl:attribute name="class">card tight</xsl:attribute></xsl:when>
      </xsl:choose>
      <p class="card-kicker"><xsl:call-template name="short"><xsl:with-param name="text" select="$production/@title"/><xsl:with-param name="chars" select="42"/></xsl:call-template>
        <xsl:text> · </xsl:text><xsl:call-template name="day-words"><xsl:with-param name="day" select="../.."/></xsl:call-template></p>
      <xsl:variable name="name" select="@person-label | @person[not(../@person-label)]"/>
      <xsl:element name="{$part}"><xsl:attribute name="class">card-name<xsl:if test="string-length($name) &gt; 22"> long</xsl:if></xsl:attribute>
        <xsl:call-template name="short"><xsl:with-param name="text" select="$name"/><xsl:with-param name="chars" select="60"/></xsl:call-template></xsl:element>
      <xsl:copy-of select="$said"/>
      <p class="card-foot"><xsl:value-of select="$w[@id = 'caution']"/>
        <xsl:text> </xsl:text><xsl:value-of select="concat($w[@id = 'revision'], ' ', $production/@revision, ' · ', $w[@id = 'digest-short'], ' ', substring($digest, 1, 12))"/></p>
    </section>
  </xsl:template>

  <!-- Two are told in full; the rest are counted. -->
  <xsl:template name="card-tasks">
    <xsl:param name="all"/>
    <xsl:for-each select="$all[position() &lt;= 2]">
      <p class="card-task"><b><xsl:call-template name="hours"><xsl:with-param name="of" select=".."/></xsl:call-template></b>
        <xsl:text> </xsl:text><xsl:call-template name="short"><xsl:with-param name="text" select="../@title"/><xsl:with-param name="chars" select="110 - 40 * (count($all) &gt; 1)"/></xsl:call-template>
        <span class="card-figures">
          <xsl:if test="@depth"><span><xsl:value-of select="concat($w[@id = 'card-depth'], ' ', @depth, '.')"/></span><xsl:text> </xsl:text></xsl:if>
          <xsl:if test="@breath-hold and translate(@breath-hold, '0 smin', '') != ''"><span><xsl:value-of select="concat($w[@id = 'card-hold'], ' ', @breath-hold, '.')"/></span><xsl:text> </xsl:text></xsl:if>
          <xsl:if test="@takes"><span><xsl:value-of select="concat($w[@id = 'card-takes'], ' ', @takes, '.')"/></span></xsl:if>
        </span></p>
    </xsl:for-each>
    <xsl:if test="count($all) &gt; 2"><p class="card-figures"><xsl:call-template name="count"><xsl:with-param name="id" select="'n-more'"/><xsl:with-param name="n" select="count($all) - 2"/></xsl:call-template></p></xsl:if>
  </xsl:template>

  <xsl:template name="card-hurt">
    <xsl:param name="mine"/>
    <xsl:param name="stopped"/>
    <xsl:param name="room"/>
    <xsl:variable name="above-line" select="$mine[@word = 'hazard'][score[@as = 'in-place']/@worst-band = $above]"/>
    <!-- Others see the card too: what is discreet is not named on it. -->
    <xsl:variable name="open" select="$above-line[not(@discreet = 'yes')]"/>
    <xsl:if test="$stopped">
      <p class="card-stop"><xsl:value-of select="$w[@id = 'card-stop']"/></p>
    </xsl:if>
    <xsl:if test="$above-line">
      <p class="card-head"><xsl:value-of select="$w[@id = 'card-hurt']"/></p>
      <ul class="card-list">
        <xsl:call-template name="first-titles"><xsl:with-param name="of" select="$open"/><xsl:with-param name="room" select="$room"/></xsl:call-template>
        <xsl:if test="count($open) &lt; count($above-line)"><li><xsl:value-of select="$w[@id = 'card-personal']"/></li></xsl:if>
      </ul>
    </xsl:if>
  </xsl:template>

  <!-- Titles in order, each once. -->
  <xsl:template name="first-titles">
    <xsl:param name="of"/>
    <xsl:param name="room"/>
    <xsl:if test="$room &gt; 0 and $of">
      <li><xsl:call-template name="short"><xsl:with-param name="text" select="$of[1]/@title"/><xsl:with-param name="chars" select="70"/></xsl:call-template></li>
      <xsl:call-template name="first-titles"><xsl:with-param name="of" select="$of[@title != $of[1]/@title]"/><xsl:with-param name="room" select="$room - 1"/></xsl:call-template>
    </xsl:if>
  </xsl:template>

  <xsl:template name="card-call">
    <xsl:param name="tasks"/>
    <ul class="card-call">
      <xsl:call-template name="card-post"><xsl:with-param name="word" select="'card-diver'"/><xsl:with-param name="posts" select="$tasks[1]/post[@role = 'safety diver' or @role = 'lifeguard']"/></xsl:call-template>
      <xsl:call-template name="card-post"><xsl:with-param name="word" select="'card-leader'"/><xsl:with-param name="posts" select="$tasks[1]/post[@role = 'diving supervisor']"/></xsl:call-template>
      <xsl:call-template name="card-post"><xsl:with-param name="word" select="'card-medic'"/><xsl:with-param name="posts" select="$tasks[1]/post[@role = 'medic']"/></xsl:call-template>
      <li><b><xsl:value-of select="$w[@id = 'card-signal']"/></b>
      <xsl:variable name="recall" select="key('fact', concat($tasks[1]/@path, '/recall-signals'))"/>
      <xsl:choose>
        <xsl:when test="$recall[not(@assumed = 'yes')]"><xsl:value-of select="concat(' ', $recall/@text)"/></xsl:when>
        <xsl:otherwise><xsl:text> </xsl:text><xsl:call-template name="blank"/></xsl:otherwise>
      </xsl:choose></li>
    </ul>
  </xsl:template>

  <xsl:template name="card-post">
    <xsl:param name="word"/>
    <xsl:param name="posts"/>
    <xsl:if test="$posts">
      <li><b><xsl:value-of select="$w[@id = $word]"/></b><xsl:text> </xsl:text>
      <xsl:call-template name="short"><xsl:with-param name="text" select="$posts[1]/@person-label"/><xsl:with-param name="chars" select="24"/></xsl:call-template></li>
    </xsl:if>
  </xsl:template>
</xsl:stylesheet>
