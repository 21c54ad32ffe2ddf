<?xml version="1.0" encoding="UTF-8"?>
<!-- The papers that go to the water: one file each, all of them for readers who
     may not see confidential facts. One is printed alone, or all are bound. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">
  <xsl:import href="common.xsl"/>
  <xsl:include href="task.xsl"/>
  <xsl:include href="emergency.xsl"/>
  <xsl:include href="station.xsl"/>
  <xsl:include href="card.xsl"/>
  <xsl:include href="record.xsl"/>
  <xsl:include href="question.xsl"/>
  <xsl:include href="form.xsl"/>
  <xsl:include href="set.xsl"/>

  <xsl:variable name="withhold" select="true()"/>
  <!-- Bound, every document stands one level lower. -->
  <xsl:variable name="top"><xsl:choose><xsl:when test="$sheet = 'set'">h2</xsl:when><xsl:otherwise>h1</xsl:otherwise></xsl:choose></xsl:variable>
  <xsl:variable name="part"><xsl:choose><xsl:when test="$sheet = 'set'">h3</xsl:when><xsl:otherwise>h2</xsl:otherwise></xsl:choose></xsl:variable>

  <xsl:key name="found" match="finding[@task]" use="@task"/>
  <xsl:key name="kind" match="finding[@task][@word = 'hazard']" use="concat(@task, ' ', @rule)"/>
  <!-- What is of no task: of a person on a day, of a day, or else of wherever its site is. -->
  <xsl:key name="around" match="finding[not(@task)][@entity = 'person-day']" use="substring-after(@subject, '@')"/>
  <xsl:key name="around" match="finding[not(@task)][@entity = 'day']" use="@subject"/>
  <xsl:key name="around" match="finding[not(@task)][not(@entity = 'person-day' or @entity = 'day')]" use="''"/>
  <xsl:key name="duty-in" match="duty[@task]" use="@task"/>
  <xsl:key name="remedy-of" match="remedy" use="@task"/>
  <xsl:key name="control" match="/assessment/controls/control" use="@ref"/>
  <xsl:key name="applied" match="/assessment/controls/control/applied" use="@subject"/>
  <xsl:key name="open-fact" match="open-facts/fact" use="@path"/>
  <xsl:key name="goes-in" match="immersion" use="concat(../../@path, ' ', @person)"/>
  <xsl:key name="on-day" match="immersion | post" use="concat(../../@path, ' ', @person)"/>

  <!-- Without a task: the sheets of all of them, each a page by itself. -->
  <xsl:template match="/">
    <xsl:choose>
      <xsl:when test="$sheet = 'task' and $task = ''">
        <pages>
          <xsl:for-each select="assessment/schedule/day/task">
            <page of="{@path}"><xsl:apply-templates select="$root" mode="page"><xsl:with-param name="of" select="string(@path)"/></xsl:apply-templates></page>
          </xsl:for-each>
        </pages>
      </xsl:when>
      <xsl:otherwise><xsl:apply-imports/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <xsl:template match="assessment" mode="title">
    <xsl:param name="of"/>
    <xsl:value-of select="concat($w[@id = concat('sheet-', $sheet)], ' · ')"/><xsl:choose>
      <xsl:when test="$sheet = 'task'"><xsl:value-of select="key('task', $of)/@title"/></xsl:when>
      <xsl:otherwise><xsl:value-of select="production/@title"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <xsl:template match="assessment" mode="body">
    <xsl:param name="of"/>
    <main id="content" class="sheet">
      <xsl:choose>
        <xsl:when test="$sheet = 'task'"><xsl:apply-templates select="key('task', $of)" mode="task-sheet"/></xsl:when>
        <xsl:when test="$sheet = 'emergency'"><xsl:apply-templates select="." mode="emergency"/></xsl:when>
        <xsl:when test="$sheet = 'station'"><xsl:apply-templates select="." mode="station"/></xsl:when>
        <xsl:when test="$sheet = 'card'"><xsl:apply-templates select="." mode="card"/></xsl:when>
        <xsl:when test="$sheet = 'record'"><xsl:apply-templates select="." mode="record"/></xsl:when>
        <xsl:when test="$sheet = 'question'"><xsl:apply-templates select="." mode="question"/></xsl:when>
        <xsl:when test="$sheet = 'form'"><xsl:apply-templates select="." mode="form"/></xsl:when>
        <xsl:otherwise><xsl:apply-templates select="." mode="set"/></xsl:otherwise>
      </xsl:choose>
    </main>
    <xsl:if test="$sheet != 'card' or not(schedule/day/task/immersion)">
      <footer class="sheet-foot">
        <xsl:if test="$sheet = 'task' or $sheet = 'set'"><xsl:call-template name="band-key"/></xsl:if>
        <p class="caution"><xsl:value-of select="$w[@id = 'caution']"/></p>
      </footer>
    </xsl:if>
  </xsl:template>

  <!-- ===== heads ===== -->

  <!-- The head of a document: what it is, its title, and what its reader does with it. -->
  <xsl:template name="doc-head">
    <xsl:param name="title" select="$w[@id = concat('sheet-', $sheet)]"/>
    <xsl:param name="lead"/>
    <xsl:param name="id"/>
    <header class="sheet-head">
      <p class="kicker"><xsl:value-of select="$production/@title"/></p>
      <xsl:element name="{$top}">
        <xsl:attribute name="class">doc-title</xsl:attribute>
        <xsl:if test="$sheet = 'set' and $id"><xsl:attribute name="id"><xsl:value-of select="$id"/></xsl:attribute></xsl:if>
        <xsl:value-of select="$title"/>
      </xsl:element>
      <xsl:if test="$lead"><p class="lead"><xsl:value-of select="$w[@id = $lead]"/></p></xsl:if>
    </header>
  </xsl:template>

  <!-- A document with nothing to say says so. -->
  <xsl:template name="doc-empty">
    <xsl:if test="$sheet != 'set'">
      <xsl:call-template name="doc-head"/>
      <p><xsl:value-of select="$w[@id = 'none']"/></p>
    </xsl:if>
  </xsl:template>

  <xsl:template name="part">
    <xsl:param name="word"/>
    <xsl:param name="text" select="$w[@id = $word]"/>
    <xsl:element name="{$part}"><xsl:attribute name="class">part<xsl:if test="string-length($text) &gt; 60"> long</xsl:if></xsl:attribute><xsl:value-of select="$text"/></xsl:element>
  </xsl:template>

  <xsl:template name="day-words">
    <xsl:param name="day"/>
    <xsl:value-of select="$day/@words"/><xsl:if test="not($day/@words)"><xsl:value-of select="$day/@date"/></xsl:if>
  </xsl:template>

  <xsl:template name="hours">
    <xsl:param name="of" select="."/>
    <xsl:if test="$of/@start"><xsl:value-of select="$of/@start"/><xsl:if test="$of/@finish"><xsl:value-of select="concat('–', $of/@finish)"/></xsl:if></xsl:if>
  </xsl:template>

  <!-- ===== facts ===== -->

  <!-- A fact everyone may read, by path; what is not known is a line to fill in by pen, what
       no rule asked for a dash. -->
  <xsl:template name="fact-text">
    <xsl:param name="path"/>
    <xsl:variable name="fact" select="key('fact', $path)"/>
    <xsl:choose>
      <xsl:when test="not($fact)">–</xsl:when>
      <xsl:when test="$fact/@sees = 'confidential' or $fact/@assumed = 'yes'"><xsl:call-template name="blank"/></xsl:when>
      <xsl:otherwise><xsl:apply-templates select="$fact/@text" mode="term"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <!-- Words of a subject (a telephone number, a place), or a line to fill in. -->
  <xsl:template name="words-of">
    <xsl:param name="subject"/>
    <xsl:param name="name"/>
    <xsl:variable name="text" select="key('subject', $subject)/text[@name = $name][@sees != 'confidential']/@text"/>
    <xsl:choose>
      <xsl:when test="$text"><xsl:value-of select="$text"/></xsl:when>
      <xsl:otherwise><xsl:call-template name="blank"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <xsl:template name="blank">
    <span class="blank"><span class="away"><xsl:value-of select="$w[@id = 'fill-in']"/></span></span>
  </xsl:template>

  <xsl:template name="pair">
    <xsl:param name="word"/>
    <xsl:param name="path"/>
    <div><dt><xsl:value-of select="$w[@id = $word]"/></dt>
      <dd><xsl:call-template name="fact-text"><xsl:with-param name="path" select="$path"/></xsl:call-template></dd></div>
  </xsl:template>

  <!-- A name as it fits where the paper has a fixed size. -->
  <xsl:template name="short">
    <xsl:param name="text"/>
    <xsl:param name="chars" select="60"/>
    <xsl:call-template name="fit"><xsl:with-param name="text" select="normalize-space($text)"/><xsl:with-param name="chars" select="$chars"/></xsl:call-template>
  </xsl:template>

  <xsl:template name="person-name">
    <xsl:value-of select="@person-label"/><xsl:if test="not(@person-label)"><xsl:value-of select="@person"/></xsl:if>
  </xsl:template>

  <!-- Empty cells to write into. -->
  <xsl:template name="cells">
    <xsl:param name="n"/>
    <xsl:if test="$n &gt; 0"><td class="pen">&#160;</td><xsl:call-template name="cells"><xsl:with-param name="n" select="$n - 1"/></xsl:call-template></xsl:if>
  </xsl:template>

  <xsl:template name="heads">
    <xsl:param name="words"/>
    <xsl:if test="$words != ''">
      <xsl:variable name="one" select="substring-before(concat($words, ' '), ' ')"/>
      <xsl:call-template name="head-cell"><xsl:with-param name="word" select="$one"/></xsl:call-template>
      <xsl:call-template name="heads"><xsl:with-param name="words" select="substring-after($words, ' ')"/></xsl:call-template>
    </xsl:if>
  </xsl:template>

  <!-- Rows with nothing in them. -->
  <xsl:template name="rows">
    <xsl:param name="n"/>
    <xsl:param name="cells"/>
    <xsl:if test="$n &gt; 0">
      <tr><xsl:call-template name="cells"><xsl:with-param name="n" select="$cells"/></xsl:call-template></tr>
      <xsl:call-template name="rows"><xsl:with-param name="n" select="$n - 1"/><xsl:with-param name="cells" select="$cells"/></xsl:call-template>
    </xsl:if>
  </xsl:template>
</xsl:stylesheet>
