<?xml version="1.0" encoding="UTF-8"?>
<!-- The task sheet: one task for the people who do it. What counts on deck comes first and stands
     on the first page; what is read before stays together, below it or on a page of its own. It
     never prints a fact that is confidential: `withheld` texts stand in, and a person is not named
     beside a finding that rests on something confidential. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">
  <xsl:template match="task" mode="task-sheet">
    <xsl:variable name="here" select="key('found', @path)"/>
    <xsl:variable name="hazards" select="$here[@word = 'hazard']"/>
    <xsl:variable name="around-found" select="(key('around', ../@date) | key('around', ../@path) | key('around', ''))[@word = 'stop' or score[@as = 'in-place']/@worst-band = $above]"/>
    <!-- Not of this task, but of its place, its day or its people on that day; a person-day is "person@date". -->
    <xsl:variable name="around"
      select="$around-found[not(@site) or @site = current()/../@site]
              [not(@entity = 'person' or @entity = 'person-day')
               or substring-before(concat(@subject, '@'), '@') = current()/immersion/@person]
              [not(@entity = 'person-day') or substring-after(@subject, '@') = current()/../@date]
              [not(@entity = 'day') or @subject = current()/../@path]"/>
    <xsl:variable name="open" select="key('open-fact', $here/rests[@state = 'unknown']/@path)"/>
    <xsl:variable name="duties" select="key('duty-in', @path)[not(@state-in-place = 'met')][not(@state = 'met')]"/>
    <xsl:variable name="used" select="$here/control[@state != 'not-planned']/@ref"/>
    <xsl:variable name="ticks" select="key('control', $used) | key('applied', @path)/.."/>
    <!-- In the table: the worst kinds above the line, and at least four; the others in one line of the rest. -->
    <xsl:variable name="kinds" select="$hazards[count(. | key('kind', concat(@task, ' ', @rule))[1]) = 1]"/>
    <xsl:variable name="told" select="$kinds[score[@as = 'in-place']/@worst-band = $above][position() &lt;= 5] | $kinds[position() &lt;= 4]"/>
    <xsl:variable name="others" select="$kinds[count(. | $told) &gt; count($told)]"/>
    <xsl:variable name="more" select="$others[score[@as = 'in-place']/@worst-band = $above]"/>
    <section class="document" aria-label="{@title}">
      <xsl:call-template name="task-head"><xsl:with-param name="hazards" select="$hazards"/></xsl:call-template>
      <xsl:call-template name="task-stops">
        <xsl:with-param name="all" select="$here[@word = 'stop'][score[@as = 'in-place'][not(@state = 'gone')]]
                                           | $around[@word = 'stop'][score[@as = 'in-place'][not(@state = 'gone')]]"/>
      </xsl:call-template>
      <xsl:call-template name="task-who"/>
      <xsl:call-template name="task-hazards">
        <xsl:with-param name="hazards" select="$hazards"/><xsl:with-param name="told" select="$told"/>
      </xsl:call-template>
      <xsl:call-template name="task-controls"><xsl:with-param name="ticks" select="$ticks"/><xsl:with-param name="here" select="$here"/></xsl:call-template>
      <xsl:call-template name="task-go">
        <xsl:with-param name="ticks" select="$ticks"/><xsl:with-param name="open" select="$open"/>
        <xsl:with-param name="duties" select="$duties"/><xsl:with-param name="hazards" select="$hazards"/>
      </xsl:call-template>
      <div class="rest">
        <xsl:element name="{$part}"><xsl:attribute name="class">part</xsl:attribute>
          <xsl:value-of select="$w[@id = 'task-rest']"/><xsl:text> </xsl:text><span class="go-lead"><xsl:call-template name="short"><xsl:with-param name="text" select="@title"/><xsl:with-param name="chars" select="90"/></xsl:call-template></span></xsl:element>
        <xsl:call-template name="by-band">
          <xsl:with-param name="these" select="$more"/><xsl:with-param name="word" select="'top-hazards-more'"/><xsl:with-param name="below" select="count($others) - count($more)"/>
        </xsl:call-template>
        <xsl:call-template name="by-band">
          <xsl:with-param name="these" select="$around[@word = 'hazard']"/><xsl:with-param name="word" select="'all-day'"/>
        </xsl:call-template>
        <xsl:call-template name="task-open"><xsl:with-param name="open" select="$open"/><xsl:with-param name="duties" select="$duties"/></xsl:call-template>
        <xsl:apply-templates select="key('remedy-of', @path)"/>
      </div>
    </section>
  </xsl:template>

  <xsl:template name="task-head">
    <xsl:param name="hazards"/>
    <header class="sheet-head task-head">
      <p class="kicker"><xsl:value-of select="$w[@id = 'sheet-task']"/> · <xsl:value-of select="$production/@title"/></p>
      <xsl:element name="{$top}"><xsl:attribute name="class">doc-title<xsl:if test="string-length(@title) &gt; 54"> long</xsl:if></xsl:attribute>
        <xsl:if test="$sheet = 'set'"><xsl:attribute name="id"><xsl:value-of select="concat('task-', @path)"/></xsl:attribute></xsl:if>
        <xsl:call-template name="short"><xsl:with-param name="text" select="@title"/><xsl:with-param name="chars" select="160"/></xsl:call-template></xsl:element>
      <dl class="strip">
        <div class="wide"><dt><xsl:value-of select="$w[@id = 'when']"/></dt>
          <dd><xsl:value-of select="../@words"/><xsl:if test="not(../@words)"><xsl:value-of select="../@date"/></xsl:if>
            <xsl:if test="@start">, <b><xsl:value-of select="concat(@start, '–', @finish)"/></b></xsl:if></dd></div>
        <div><dt><xsl:value-of select="$w[@id = 'where-site']"/></dt>
          <dd><xsl:call-template name="stated"><xsl:with-param name="text" select="../@site-label"/></xsl:call-template></dd></div>
        <div><dt><xsl:value-of select="$w[@id = 'reference']"/></dt>
          <dd><xsl:call-template name="stated"><xsl:with-param name="text" select="$production/@reference"/></xsl:call-template>
            <xsl:text>, </xsl:text><xsl:value-of select="$w[@id = 'revision']"/><xsl:text> </xsl:text>
            <xsl:call-template name="stated"><xsl:with-param name="text" select="$production/@revision"/></xsl:call-template></dd></div>
        <div><dt><xsl:value-of select="$w[@id = 'band']"/></dt>
          <dd><xsl:call-template name="worst-of">
            <xsl:with-param name="findings" select="$hazards"/><xsl:with-param name="as" select="'in-place'"/>
          </xsl:call-template></dd></div>
      </dl>
    </header>
  </xsl:template>

  <xsl:template name="task-who">
    <section aria-label="{concat($w[@id = 'who'], $colon, @title)}">
      <xsl:call-template name="part"><xsl:with-param name="word" select="'who'"/></xsl:call-template>
      <xsl:if test="immersion">
        <div class="scroll" tabindex="0" role="group" aria-label="{$w[@id = 'who']}">
        <table class="compact who-table stack">
          <caption class="away"><xsl:value-of select="$w[@id = 'in-water']"/></caption>
          <thead><tr>
            <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'person'"/></xsl:call-template>
            <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'role'"/></xsl:call-template>
            <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'depth'"/><xsl:with-param name="class" select="'n'"/></xsl:call-template>
            <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'time-in-water'"/><xsl:with-param name="class" select="'n'"/></xsl:call-template>
            <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'breath-hold'"/><xsl:with-param name="class" select="'n'"/></xsl:call-template>
            <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'takes'"/><xsl:with-param name="class" select="'n'"/></xsl:call-template>
            <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'wears'"/></xsl:call-template>
          </tr></thead>
          <tbody>
            <xsl:for-each select="immersion">
              <tr>
                <th scope="row"><xsl:value-of select="@person-label"/><xsl:if test="not(@person-label)"><xsl:value-of select="@person"/></xsl:if></th>
                <td data-h="{$w[@id = 'role']}"><xsl:apply-templates select="@role" mode="term"/></td>
                <td class="n" data-h="{$w[@id = 'depth']}"><xsl:call-template name="figure"><xsl:with-param name="text" select="@depth"/></xsl:call-template></td>
                <td class="n" data-h="{$w[@id = 'time-in-water']}"><xsl:call-template name="figure"><xsl:with-param name="text" select="@time"/></xsl:call-template></td>
                <td class="n" data-h="{$w[@id = 'breath-hold']}"><xsl:value-of select="@breath-hold"/><xsl:if test="not(@breath-hold)">–</xsl:if></td>
                <td class="n" data-h="{$w[@id = 'takes']}"><xsl:value-of select="@takes"/><xsl:if test="not(@takes)">–</xsl:if></td>
                <td data-h="{$w[@id = 'wears']}"><xsl:value-of select="@wears"/></td>
              </tr>
            </xsl:for-each>
          </tbody>
        </table>
        </div>
      </xsl:if>
      <xsl:if test="post">
        <p class="posts"><span class="label"><xsl:value-of select="$w[@id = 'on-deck']"/></span>
          <xsl:for-each select="post">
            <xsl:if test="position() &gt; 1">; </xsl:if>
            <xsl:text> </xsl:text><xsl:apply-templates select="@role" mode="term"/><xsl:value-of select="$colon"/>
            <b><xsl:value-of select="@person-label"/><xsl:if test="not(@person-label)"><xsl:value-of select="@person"/></xsl:if></b>
          </xsl:for-each>
        </p>
      </xsl:if>
    </section>
  </xsl:template>

  <xsl:template name="figure">
    <xsl:param name="text"/>
    <xsl:choose>
      <xsl:when test="string($text) != ''"><xsl:value-of select="$text"/></xsl:when>
      <xsl:otherwise><span class="mark unknown"><xsl:value-of select="$w[@id = 'mark-unknown']"/></span></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <xsl:template name="task-stops">
    <xsl:param name="all"/>
    <xsl:choose>
      <xsl:when test="$all">
        <section class="stop-box" aria-label="{concat($w[@id = 'stops-here'], $colon, @title)}">
          <xsl:call-template name="part"><xsl:with-param name="word" select="'stops-here'"/></xsl:call-template>
          <ul>
            <xsl:for-each select="$all">
              <li>
                <xsl:apply-templates select="score[@as = 'in-place']"/><xsl:text> </xsl:text>
                <b><xsl:value-of select="@title"/></b>
                <xsl:if test="because"><xsl:value-of select="$colon"/><xsl:apply-templates select="because[1]" mode="open"/></xsl:if>
              </li>
            </xsl:for-each>
          </ul>
        </section>
      </xsl:when>
      <xsl:otherwise><p class="small"><xsl:value-of select="$w[@id = 'no-stops']"/></p></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <!-- What everyone may read of a text. -->
  <xsl:template match="because" mode="open">
    <xsl:variable name="text" select="."/>
    <xsl:choose>
      <xsl:when test="@withheld"><xsl:value-of select="@withheld"/></xsl:when>
      <!-- A rule that wrote a personal fact into its own words. -->
      <xsl:when test="../rests[@sees = 'confidential'][string-length(@text) &gt; 3][contains($text, @text)]">
        <xsl:value-of select="$w[@id = 'hidden-reason']"/>
      </xsl:when>
      <xsl:otherwise><xsl:call-template name="grouped"><xsl:with-param name="text" select="string(.)"/></xsl:call-template></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <xsl:template match="finding" mode="open-subject">
    <xsl:choose>
      <xsl:when test="(because | value | condition | when)/@withheld or rests[@sees = 'confidential'][not(@state = 'unknown')]">
        <xsl:value-of select="@who"/><xsl:if test="not(@who)"><xsl:value-of select="$w[@id = 'hidden-person']"/></xsl:if>
      </xsl:when>
      <xsl:when test="@subject = @task"/>
      <xsl:when test="key('task', @task)/post[@path = current()/@subject]">
        <xsl:value-of select="key('task', @task)/post[@path = current()/@subject]/@person-label"/>
      </xsl:when>
      <xsl:when test="key('task', @task)/immersion[@path = current()/@subject]">
        <xsl:value-of select="key('task', @task)/immersion[@path = current()/@subject]/@person-label"/>
      </xsl:when>
      <xsl:otherwise><xsl:value-of select="@subject-label"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <xsl:template name="task-hazards">
    <xsl:param name="hazards"/>
    <xsl:param name="told"/>
    <section aria-label="{concat($w[@id = 'top-hazards'], $colon, @title)}">
      <xsl:call-template name="part"><xsl:with-param name="word" select="'top-hazards'"/></xsl:call-template>
      <xsl:choose>
        <xsl:when test="$hazards">
          <div class="scroll" tabindex="0" role="group" aria-label="{$w[@id = 'top-hazards']}">
          <table class="compact hazards stack">
            <caption class="away"><xsl:value-of select="$w[@id = 'top-hazards']"/></caption>
            <thead><tr>
              <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'hazard'"/></xsl:call-template>
              <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'because'"/></xsl:call-template>
              <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'before'"/><xsl:with-param name="class" select="'b'"/></xsl:call-template>
              <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'after'"/><xsl:with-param name="class" select="'b'"/></xsl:call-template>
            </tr></thead>
            <tbody>
              <xsl:for-each select="$told">
                <xsl:variable name="same" select="$hazards[@rule = current()/@rule]"/>
                <tr>
                  <th scope="row"><xsl:value-of select="@title"/>
                    <xsl:text> </xsl:text><span class="of"><xsl:call-template name="each-subject"><xsl:with-param name="left" select="$same"/></xsl:call-template></span></th>
                  <td><xsl:apply-templates select="because[1]" mode="open"/></td>
                  <td class="b" data-h="{$w[@id = 'before']}"><xsl:call-template name="worst-of"><xsl:with-param name="findings" select="$same"/><xsl:with-param name="as" select="'described'"/></xsl:call-template></td>
                  <td class="b" data-h="{$w[@id = 'after']}"><xsl:call-template name="worst-of"><xsl:with-param name="findings" select="$same"/><xsl:with-param name="as" select="'in-place'"/></xsl:call-template></td>
                </tr>
              </xsl:for-each>
            </tbody>
          </table>
          </div>
        </xsl:when>
        <xsl:otherwise><p class="small"><xsl:value-of select="$w[@id = 'no-hazards']"/></p></xsl:otherwise>
      </xsl:choose>
    </section>
  </xsl:template>

  <!-- Whom it is of, each once: who may not be named are the same words many times over. -->
  <xsl:template name="each-subject">
    <xsl:param name="left"/>
    <xsl:param name="said" select="'|'"/>
    <xsl:if test="$left">
      <xsl:variable name="subject"><xsl:apply-templates select="$left[1]" mode="open-subject"/></xsl:variable>
      <xsl:variable name="new" select="string($subject) != '' and not(contains($said, concat('|', $subject, '|')))"/>
      <xsl:if test="$new"><xsl:if test="$said != '|'">, </xsl:if><xsl:value-of select="$subject"/></xsl:if>
      <xsl:call-template name="each-subject">
        <xsl:with-param name="left" select="$left[position() &gt; 1]"/>
        <xsl:with-param name="said" select="concat($said, substring(concat($subject, '|'), 1, 1000 * $new))"/>
      </xsl:call-template>
    </xsl:if>
  </xsl:template>

  <!-- Titles in one paragraph, the worst band first, each title once. -->
  <xsl:template name="by-band">
    <xsl:param name="these"/>
    <xsl:param name="word"/>
    <xsl:param name="below" select="0"/>
    <xsl:if test="$these or $below &gt; 0">
      <p class="around"><span class="label"><xsl:value-of select="$w[@id = $word]"/></span>
        <xsl:for-each select="$bands">
          <xsl:sort select="@rank" data-type="number" order="descending"/>
          <xsl:variable name="band" select="@id"/>
          <xsl:variable name="in" select="$these[score[@as = 'in-place']/@worst-band = $band]"/>
          <xsl:if test="$in">
            <xsl:text> </xsl:text><xsl:call-template name="band"><xsl:with-param name="band" select="@id"/></xsl:call-template><xsl:value-of select="$colon"/>
            <xsl:for-each select="$in">
              <xsl:if test="count(. | $in[@rule = current()/@rule][1]) = 1">
                <xsl:if test="count(. | $in[1]) != 1">; </xsl:if><xsl:value-of select="@title"/>
              </xsl:if>
            </xsl:for-each>
            <xsl:text>. </xsl:text>
          </xsl:if>
        </xsl:for-each>
        <xsl:call-template name="count"><xsl:with-param name="id" select="'n-below'"/><xsl:with-param name="n" select="$below"/></xsl:call-template>
      </p>
    </xsl:if>
  </xsl:template>


  <xsl:template name="task-controls">
    <xsl:param name="ticks"/>
    <xsl:param name="here"/>
    <xsl:variable name="path" select="@path"/>
    <section aria-label="{concat($w[@id = 'tick-controls'], $colon, @title)}">
      <xsl:call-template name="part"><xsl:with-param name="word" select="'tick-controls'"/></xsl:call-template>
      <xsl:choose>
        <xsl:when test="$ticks">
          <ul class="ticks">
            <xsl:if test="count($ticks) &gt; 2"><xsl:attribute name="class">ticks three</xsl:attribute></xsl:if>
            <xsl:for-each select="$ticks">
              <xsl:sort select="@kind-rank" data-type="number"/>
              <li>
                <span class="box" aria-hidden="true"/>
                <span class="tick-text">
                  <b><xsl:value-of select="@title"/></b>
                  <xsl:text> </xsl:text>
                  <span class="quiet"><xsl:call-template name="here-state"><xsl:with-param name="here" select="$here"/><xsl:with-param name="path" select="$path"/></xsl:call-template></span>
                  <!-- Where there are many, how each is checked stands in the record of the day. -->
                  <xsl:for-each select="check[1][count($ticks) &lt;= 6]">
                    <span class="of"><xsl:value-of select="@how"/>
                      <xsl:if test="@often">, <xsl:value-of select="@often"/></xsl:if>
                      <xsl:if test="@who"> (<xsl:value-of select="@who"/>)</xsl:if></span>
                  </xsl:for-each>
                </span>
              </li>
            </xsl:for-each>
          </ul>
        </xsl:when>
        <xsl:otherwise><p class="small"><xsl:value-of select="$w[@id = 'no-controls']"/></p></xsl:otherwise>
      </xsl:choose>
    </section>
  </xsl:template>

  <xsl:template match="remedy">
    <p class="around">
      <xsl:if test="control">
        <span class="label"><xsl:value-of select="$w[@id = 'remedy-here']"/></span>
        <xsl:for-each select="control[position() &lt;= 5]"><xsl:if test="position() &gt; 1"> + </xsl:if><xsl:value-of select="@title"/></xsl:for-each>
        <xsl:if test="count(control) &gt; 5"><xsl:text>, </xsl:text><xsl:call-template name="count"><xsl:with-param name="id" select="'n-more'"/><xsl:with-param name="n" select="count(control) - 5"/></xsl:call-template></xsl:if>
        <xsl:text>. </xsl:text>
      </xsl:if>
      <xsl:if test="@none = 'yes'">
        <span class="label"><xsl:value-of select="$w[@id = 'remedy-none']"/></span>
        <xsl:for-each select="left[not(@title = preceding-sibling::left/@title)]">
          <xsl:if test="position() &gt; 1">; </xsl:if><xsl:value-of select="@title"/>
        </xsl:for-each>
      </xsl:if>
    </p>
  </xsl:template>

  <!-- In place somewhere in this task, else planned. -->
  <xsl:template name="here-state">
    <xsl:param name="here"/>
    <xsl:param name="path"/>
    <xsl:choose>
      <xsl:when test="applied[@subject = $path or starts-with(@subject, concat($path, '/'))][@state = 'in-place']
                      or $here/control[@ref = current()/@ref][@state = 'in-place']">
        <xsl:value-of select="$w[@id = 'c-in-place']"/>
      </xsl:when>
      <xsl:otherwise><xsl:value-of select="$w[@id = 'c-planned']"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <xsl:template name="task-open">
    <xsl:param name="open"/>
    <xsl:param name="duties"/>
    <xsl:variable name="task" select="."/>
    <xsl:if test="$open or $duties">
      <section class="two" aria-label="{concat($w[@id = 'open-facts-here'], $colon, @title)}">
        <xsl:if test="$open">
          <div>
            <xsl:call-template name="part"><xsl:with-param name="word" select="'open-facts-here'"/></xsl:call-template>
            <ul class="ticks">
              <xsl:for-each select="$open[@sees != 'confidential']">
                <li><span class="box" aria-hidden="true"/><span class="tick-text">
                  <xsl:variable name="at" select="$task/immersion[starts-with(current()/@path, concat(@path, '/'))]"/>
                  <b><xsl:value-of select="@title"/></b>
                  <xsl:choose>
                    <xsl:when test="$at/@person-label">, <xsl:value-of select="$at/@person-label"/></xsl:when>
                    <xsl:when test="starts-with(@path, concat($task/@path, '/'))"/>
                    <xsl:when test="@subject-label">, <xsl:value-of select="@subject-label"/></xsl:when>
                  </xsl:choose>
                  <xsl:if test="@asked"><span class="quiet"><xsl:value-of select="concat(' (', $w[@id = 'ask'], ' ', @asked, ')')"/></span></xsl:if>
                </span></li>
              </xsl:for-each>
            </ul>
            <xsl:if test="$open[@sees = 'confidential']"><p class="small"><xsl:value-of select="$w[@id = 'open-hidden']"/></p></xsl:if>
          </div>
        </xsl:if>
        <xsl:if test="$duties">
          <div>
            <xsl:call-template name="part"><xsl:with-param name="word" select="'duties-here'"/></xsl:call-template>
            <ul class="ticks">
              <xsl:for-each select="$duties">
                <li><span class="box" aria-hidden="true"/><span class="tick-text">
                  <b><xsl:value-of select="@title"/></b><xsl:text> </xsl:text>
                  <span class="quiet"><xsl:value-of select="$w[@id = concat('duty-', current()/@state)]"/></span>
                  <span class="of"><xsl:call-template name="law"/></span>
                </span></li>
              </xsl:for-each>
            </ul>
          </div>
        </xsl:if>
      </section>
    </xsl:if>
  </xsl:template>

  <xsl:template name="task-go">
    <xsl:param name="ticks"/>
    <xsl:param name="open"/>
    <xsl:param name="duties"/>
    <xsl:param name="hazards"/>
    <section class="go" aria-label="{concat($w[@id = 'go'], $colon, @title)}">
      <xsl:element name="{$part}"><xsl:attribute name="class">part</xsl:attribute>
        <xsl:value-of select="$w[@id = 'go']"/><xsl:text> </xsl:text><span class="go-lead"><xsl:value-of select="$w[@id = 'go-lead']"/></span></xsl:element>
      <ul class="ticks three">
        <xsl:call-template name="go-line"><xsl:with-param name="word" select="'go-stops'"/></xsl:call-template>
        <xsl:if test="$ticks"><xsl:call-template name="go-line"><xsl:with-param name="word" select="'go-controls'"/></xsl:call-template></xsl:if>
        <xsl:if test="$open"><xsl:call-template name="go-line"><xsl:with-param name="word" select="'go-open'"/></xsl:call-template></xsl:if>
        <xsl:if test="$hazards[score[@as = 'in-place']/@worst-band = $above]"><xsl:call-template name="go-line"><xsl:with-param name="word" select="'go-above'"/></xsl:call-template></xsl:if>
        <xsl:if test="$duties"><xsl:call-template name="go-line"><xsl:with-param name="word" select="'go-duties'"/></xsl:call-template></xsl:if>
        <xsl:call-template name="go-line"><xsl:with-param name="word" select="'go-signal'"/></xsl:call-template>
      </ul>
      <xsl:call-template name="signatures"/>
    </section>
  </xsl:template>

  <xsl:template name="go-line">
    <xsl:param name="word"/>
    <li><span class="box" aria-hidden="true"/><span class="tick-text"><xsl:value-of select="$w[@id = $word]"/></span></li>
  </xsl:template>
</xsl:stylesheet>
