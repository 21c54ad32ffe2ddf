<?xml version="1.0" encoding="UTF-8"?>
<!-- The emergency plan of each place: what to say, whom to call, who does what,
     how long it takes from the trouble to the chamber. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">

  <xsl:template match="assessment" mode="emergency">
    <xsl:apply-templates select="rescue[@site = $root/schedule/day/@site]" mode="emergency"/>
    <xsl:if test="not(rescue[@site = $root/schedule/day/@site])"><xsl:call-template name="doc-empty"/></xsl:if>
  </xsl:template>

  <xsl:template match="rescue" mode="emergency">
    <xsl:variable name="site" select="@site"/>
    <section class="document" aria-label="{$w[@id = 'sheet-emergency']}, {key('subject', $site)/@label}">
      <xsl:choose>
        <xsl:when test="position() = 1 or $sheet = 'set'">
          <xsl:call-template name="doc-head">
            <xsl:with-param name="title" select="concat($w[@id = 'sheet-emergency'], $colon, key('subject', $site)/@label)"/>
            <xsl:with-param name="id" select="concat('emergency-', $site)"/>
          </xsl:call-template>
        </xsl:when>
        <xsl:otherwise><xsl:call-template name="part"><xsl:with-param name="text" select="concat($w[@id = 'sheet-emergency'], $colon, key('subject', $site)/@label)"/></xsl:call-template></xsl:otherwise>
      </xsl:choose>
      <xsl:call-template name="emergency-say"/>
      <xsl:call-template name="emergency-time"/>
      <xsl:call-template name="emergency-who"/>
      <xsl:call-template name="emergency-kit"/>
    </section>
  </xsl:template>

  <!-- ===== what to say, and where to ===== -->

  <xsl:template name="emergency-say">
    <div class="say-box">
      <p class="say-lead"><b><xsl:value-of select="$w[@id = 'say-number']"/></b><xsl:text> </xsl:text><span class="digits" aria-hidden="true"><xsl:call-template name="squares"><xsl:with-param name="n" select="3"/></xsl:call-template></span>
        <xsl:text> </xsl:text><xsl:value-of select="$w[@id = 'say-words']"/></p>
      <dl class="address">
        <xsl:call-template name="say-line"><xsl:with-param name="word" select="'say-place'"/><xsl:with-param name="text" select="key('subject', @site)/@label"/></xsl:call-template>
        <xsl:call-template name="say-line"><xsl:with-param name="word" select="'say-address'"/><xsl:with-param name="text" select="key('subject', @site)/text[@name = 'address']/@text"/></xsl:call-template>
        <xsl:call-template name="say-line"><xsl:with-param name="word" select="'say-meet'"/><xsl:with-param name="text" select="key('subject', @emergency)/text[@name = 'rendezvous']/@text"/></xsl:call-template>
        <div><dt><xsl:value-of select="$w[@id = 'say-grid']"/></dt><dd><span class="digits" aria-hidden="true"><xsl:call-template name="squares"><xsl:with-param name="n" select="18"/></xsl:call-template></span></dd></div>
        <div><dt><xsl:value-of select="$w[@id = 'say-phone']"/></dt><dd><span class="digits" aria-hidden="true"><xsl:call-template name="squares"><xsl:with-param name="n" select="14"/></xsl:call-template></span></dd></div>
      </dl>
      <table class="calls">
        <caption class="away"><xsl:value-of select="$w[@id = 'calls']"/></caption>
        <thead><tr><xsl:call-template name="heads"><xsl:with-param name="words" select="'calls calls-who calls-number calls-away'"/></xsl:call-template></tr></thead>
        <tbody>
          <xsl:call-template name="call-row"><xsl:with-param name="word" select="'call-hospital'"/><xsl:with-param name="name" select="'hospital'"/><xsl:with-param name="phone" select="'hospital-phone'"/><xsl:with-param name="time" select="'hospital-time'"/></xsl:call-template>
          <xsl:call-template name="call-row"><xsl:with-param name="word" select="'call-chamber'"/><xsl:with-param name="name" select="'recompression-chamber'"/><xsl:with-param name="phone" select="'chamber-phone'"/><xsl:with-param name="time" select="'chamber-time'"/></xsl:call-template>
        </tbody>
      </table>
    </div>
  </xsl:template>

  <xsl:template name="say-line">
    <xsl:param name="word"/>
    <xsl:param name="text"/>
    <div><dt><xsl:value-of select="$w[@id = $word]"/></dt>
      <dd><xsl:choose><xsl:when test="string($text) != ''"><b><xsl:value-of select="$text"/></b></xsl:when><xsl:otherwise><xsl:call-template name="blank"/></xsl:otherwise></xsl:choose></dd></div>
  </xsl:template>

  <xsl:template name="squares">
    <xsl:param name="n"/>
    <xsl:if test="$n &gt; 0"><span class="square"/><xsl:call-template name="squares"><xsl:with-param name="n" select="$n - 1"/></xsl:call-template></xsl:if>
  </xsl:template>

  <xsl:template name="call-row">
    <xsl:param name="word"/>
    <xsl:param name="name"/>
    <xsl:param name="phone"/>
    <xsl:param name="time"/>
    <tr>
      <th scope="row"><xsl:value-of select="$w[@id = $word]"/></th>
      <td><xsl:call-template name="words-of"><xsl:with-param name="subject" select="@emergency"/><xsl:with-param name="name" select="$name"/></xsl:call-template></td>
      <td><b><xsl:call-template name="words-of"><xsl:with-param name="subject" select="@emergency"/><xsl:with-param name="name" select="$phone"/></xsl:call-template></b></td>
      <td><xsl:call-template name="fact-text"><xsl:with-param name="path" select="concat(@emergency, '/', $time)"/></xsl:call-template></td>
    </tr>
  </xsl:template>

  <!-- ===== the time line ===== -->

  <!-- The bar covers the first minutes; what takes longer is told in words. -->
  <xsl:variable name="bar-seconds" select="360"/>

  <xsl:template name="emergency-time">
    <xsl:call-template name="part"><xsl:with-param name="word" select="'rescue-time'"/></xsl:call-template>
    <table class="rescue">
      <caption class="away"><xsl:value-of select="$w[@id = 'rescue-time']"/></caption>
      <thead><tr>
        <xsl:call-template name="heads"><xsl:with-param name="words" select="'rescue-step rescue-takes rescue-at rescue-real'"/></xsl:call-template>
        <th scope="col"><xsl:value-of select="$w[@id = 'rescue-bar']"/>
          <span class="ruler" aria-hidden="true"><i>0</i><i>1</i><i>2</i><i>3</i><i>4</i><i>5</i></span></th>
      </tr></thead>
      <tbody>
        <xsl:for-each select="step">
          <tr>
            <th scope="row"><xsl:value-of select="$w[@id = concat('step-', current()/@id)]"/></th>
            <td><xsl:choose>
              <xsl:when test="key('fact', @path)/@assumed = 'yes' or not(key('fact', @path))"><span class="mark unknown"><xsl:value-of select="$w[@id = 'mark-unknown']"/></span></xsl:when>
              <xsl:otherwise><xsl:value-of select="@takes"/></xsl:otherwise>
            </xsl:choose></td>
            <td><xsl:choose>
              <xsl:when test="@assumed = 'yes'"><xsl:value-of select="$w[@id = 'rescue-unknown']"/></xsl:when>
              <xsl:otherwise><b><xsl:value-of select="@at"/></b></xsl:otherwise>
            </xsl:choose></td>
            <td class="pen">&#160;</td>
            <td class="bar-cell"><xsl:if test="@assumed = 'no'"><xsl:call-template name="rescue-bar"/></xsl:if></td>
          </tr>
        </xsl:for-each>
      </tbody>
    </table>
    <p class="small"><xsl:value-of select="$w[@id = 'rescue-note']"/></p>
  </xsl:template>

  <!-- Solid until it may be over, open until it is over at the latest. -->
  <xsl:template name="rescue-bar">
    <xsl:variable name="from"><xsl:call-template name="bar-percent"><xsl:with-param name="seconds" select="@from-s"/></xsl:call-template></xsl:variable>
    <xsl:variable name="to"><xsl:call-template name="bar-percent"><xsl:with-param name="seconds" select="@to-s"/></xsl:call-template></xsl:variable>
    <span class="bar" aria-hidden="true">
      <span class="bar-sure" style="width:{$from}%"/>
      <span class="bar-late" style="left:{$from}%;width:{$to - $from}%"/>
      <xsl:if test="@to-s &gt; $bar-seconds"><span class="bar-on">→</span></xsl:if>
    </span>
  </xsl:template>

  <xsl:template name="bar-percent">
    <xsl:param name="seconds"/>
    <xsl:choose>
      <xsl:when test="$seconds &gt;= $bar-seconds">100</xsl:when>
      <xsl:otherwise><xsl:value-of select="round(1000 * $seconds div $bar-seconds) div 10"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <!-- ===== who does what ===== -->

  <xsl:template name="emergency-who">
    <xsl:variable name="days" select="/assessment/schedule/day[@site = current()/@site]"/>
    <xsl:variable name="posts" select="$days/task/post"/>
    <xsl:call-template name="part"><xsl:with-param name="word" select="'rescue-who'"/></xsl:call-template>
    <table class="compact rescue-who">
      <caption class="away"><xsl:value-of select="$w[@id = 'rescue-who']"/></caption>
      <thead><tr><xsl:call-template name="heads"><xsl:with-param name="words" select="'role person rescue-does'"/></xsl:call-template></tr></thead>
      <tbody>
        <xsl:for-each select="$w[starts-with(@id, 'does-')]">
          <xsl:variable name="role" select="substring-after(@id, 'does-')"/>
          <xsl:variable name="these" select="$posts[translate(@role, ' ', '-') = $role]"/>
          <xsl:if test="$these">
            <tr><th scope="row"><xsl:apply-templates select="$these[1]/@role" mode="term"/></th>
              <td><xsl:call-template name="each-name"><xsl:with-param name="of" select="$these"/></xsl:call-template></td>
              <td><xsl:value-of select="."/></td></tr>
          </xsl:if>
        </xsl:for-each>
        <tr><th scope="row"><xsl:value-of select="$w[@id = 'everyone']"/></th><td/>
          <td><xsl:value-of select="$w[@id = 'everyone-does']"/><xsl:text> </xsl:text>
            <b><xsl:call-template name="words-of"><xsl:with-param name="subject" select="@emergency"/><xsl:with-param name="name" select="'muster-point'"/></xsl:call-template></b></td></tr>
      </tbody>
    </table>
  </xsl:template>

  <!-- Each name once; the list is that of a place, a few dozen at most. -->
  <xsl:template name="each-name">
    <xsl:param name="of"/>
    <xsl:for-each select="$of">
      <xsl:if test="count(. | $of[@person = current()/@person][1]) = 1">
        <xsl:if test="count(. | $of[1]) != 1">, </xsl:if><xsl:call-template name="person-name"/>
      </xsl:if>
    </xsl:for-each>
  </xsl:template>

  <!-- ===== what is there, and what is not ===== -->

  <xsl:template name="emergency-kit">
    <xsl:variable name="facts" select="key('subject', @emergency)/fact"/>
    <div class="whole">
    <xsl:call-template name="part"><xsl:with-param name="word" select="'rescue-kit'"/></xsl:call-template>
    <ul class="ticks three">
      <xsl:for-each select="$facts[@text = 'no' or @text = 'yes']">
        <xsl:sort select="@text"/>
        <li><span class="box" aria-hidden="true"/><span class="tick-text">
          <xsl:if test="@text = 'no'"><b><xsl:value-of select="$w[@id = 'not-there']"/></b><xsl:text> </xsl:text></xsl:if>
          <xsl:value-of select="@meaning"/></span></li>
      </xsl:for-each>
    </ul>
    <xsl:if test="$facts[@state = 'unknown']">
      <p class="small"><b><xsl:value-of select="$w[@id = 'kit-unknown']"/></b><xsl:text> </xsl:text>
        <xsl:for-each select="$facts[@state = 'unknown']"><xsl:if test="position() &gt; 1">; </xsl:if><xsl:value-of select="@meaning"/></xsl:for-each></p>
    </xsl:if>
    <dl class="strip">
      <xsl:call-template name="pair"><xsl:with-param name="word" select="'kit-first-aiders'"/><xsl:with-param name="path" select="concat(@emergency, '/first-aiders')"/></xsl:call-template>
      <xsl:call-template name="pair"><xsl:with-param name="word" select="'kit-oxygen'"/><xsl:with-param name="path" select="concat(@emergency, '/oxygen-volume')"/></xsl:call-template>
      <xsl:call-template name="pair"><xsl:with-param name="word" select="'kit-flow'"/><xsl:with-param name="path" select="concat(@emergency, '/oxygen-flow')"/></xsl:call-template>
      <xsl:call-template name="pair"><xsl:with-param name="word" select="'kit-defibrillator'"/><xsl:with-param name="path" select="concat(@emergency, '/defibrillator-checked-on')"/></xsl:call-template>
      <xsl:call-template name="pair"><xsl:with-param name="word" select="'kit-drill'"/><xsl:with-param name="path" select="concat(@emergency, '/rescue-drill-on')"/></xsl:call-template>
    </dl>
    </div>
  </xsl:template>
</xsl:stylesheet>
