<?xml version="1.0" encoding="UTF-8"?>
<!-- The task sheet: one task on one page for the people who do it. It never
     prints a fact that is confidential: `withheld` texts stand in, and a person
     is not named beside a finding that rests on something confidential. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">
  <xsl:import href="common.xsl"/>

  <xsl:variable name="withhold" select="true()"/>
  <xsl:variable name="t" select="key('task', $task)"/>
  <xsl:variable name="day" select="$t/.."/>
  <xsl:variable name="here" select="/assessment/findings/finding[@task = $task]"/>
  <xsl:variable name="stops" select="$here[@word = 'stop'][score[@as = 'in-place'][not(@state = 'gone')]]"/>
  <xsl:variable name="hazards" select="$here[@word = 'hazard']"/>
  <xsl:variable name="kinds" select="$hazards[not(@rule = preceding-sibling::finding[@task = $task][@word = 'hazard']/@rule)]"/>
  <!-- Not of this task, but of its place, its day or its people on that day; a person-day is "person@date". -->
  <xsl:variable name="around"
    select="/assessment/findings/finding[not(@task)][@word = 'stop' or score[@as = 'in-place']/@worst-band = $above]
            [not(@site) or @site = $day/@site]
            [not(@entity = 'person' or @entity = 'person-day')
             or substring-before(concat(@subject, '@'), '@') = $t/immersion/@person]
            [not(@entity = 'person-day') or substring-after(@subject, '@') = $day/@date]
            [not(@entity = 'day') or @subject = $day/@path]"/>
  <xsl:variable name="open"
    select="/assessment/open-facts/fact[@path = $here/rests[@state = 'unknown']/@path]"/>
  <xsl:variable name="duties" select="/assessment/duties/duty[@task = $task][not(@state-in-place = 'met')][not(@state = 'met')]"/>
  <xsl:variable name="used" select="$here/control[@state != 'not-planned']/@ref"/>
  <xsl:variable name="ticks"
    select="/assessment/controls/control[@ref = $used or applied/@subject = $task]"/>
  <!-- In the table: the worst kinds above the line, and at least four; the others in one line below it. -->
  <xsl:variable name="told" select="$kinds[score[@as = 'in-place']/@worst-band = $above][position() &lt;= 6] | $kinds[position() &lt;= 4]"/>
  <xsl:variable name="others" select="$kinds[count(. | $told) &gt; count($told)]"/>

  <xsl:template match="assessment" mode="title">
    <xsl:value-of select="concat($w[@id = 'task-sheet'], ' · ', $t/@title)"/>
  </xsl:template>

  <xsl:template match="assessment" mode="body">
    <main id="content" class="sheet">
      <xsl:call-template name="sheet-head"/>
      <xsl:call-template name="sheet-who"/>
      <xsl:call-template name="sheet-stops"/>
      <xsl:call-template name="sheet-hazards"/>
      <xsl:call-template name="sheet-controls"/>
      <xsl:call-template name="sheet-open"/>
      <xsl:call-template name="sheet-go"/>
      <xsl:call-template name="sheet-sign"/>
    </main>
    <footer class="sheet-foot">
      <xsl:call-template name="band-key"/>
      <p class="caution"><xsl:value-of select="$w[@id = 'caution']"/></p>
    </footer>
  </xsl:template>

  <xsl:template name="sheet-head">
    <header class="sheet-head">
      <p class="kicker"><xsl:value-of select="$w[@id = 'task-sheet']"/> · <xsl:value-of select="$production/@title"/></p>
      <h1><xsl:value-of select="$t/@title"/></h1>
      <dl class="strip">
        <div class="wide"><dt><xsl:value-of select="$w[@id = 'when']"/></dt>
          <dd><xsl:value-of select="$day/@words"/><xsl:if test="not($day/@words)"><xsl:value-of select="$day/@date"/></xsl:if>
            <xsl:if test="$t/@start">, <b><xsl:value-of select="concat($t/@start, '–', $t/@finish)"/></b></xsl:if></dd></div>
        <div><dt><xsl:value-of select="$w[@id = 'where-site']"/></dt>
          <dd><xsl:call-template name="stated"><xsl:with-param name="text" select="$day/@site-label"/></xsl:call-template></dd></div>
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

  <xsl:template name="sheet-who">
    <section aria-labelledby="who">
      <h2 id="who"><xsl:value-of select="$w[@id = 'who']"/></h2>
      <xsl:if test="$t/immersion">
        <div class="scroll" tabindex="0" role="group" aria-labelledby="who">
        <table class="compact">
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
            <xsl:for-each select="$t/immersion">
              <tr>
                <th scope="row"><xsl:value-of select="@person-label"/><xsl:if test="not(@person-label)"><xsl:value-of select="@person"/></xsl:if></th>
                <td><xsl:value-of select="@role"/></td>
                <td class="n"><xsl:call-template name="figure"><xsl:with-param name="text" select="@depth"/></xsl:call-template></td>
                <td class="n"><xsl:call-template name="figure"><xsl:with-param name="text" select="@time"/></xsl:call-template></td>
                <td class="n"><xsl:value-of select="@breath-hold"/><xsl:if test="not(@breath-hold)">–</xsl:if></td>
                <td class="n"><xsl:value-of select="@takes"/><xsl:if test="not(@takes)">–</xsl:if></td>
                <td><xsl:value-of select="@wears"/></td>
              </tr>
            </xsl:for-each>
          </tbody>
        </table>
        </div>
      </xsl:if>
      <xsl:if test="$t/post">
        <p class="posts"><span class="label"><xsl:value-of select="$w[@id = 'on-deck']"/></span>
          <xsl:for-each select="$t/post">
            <xsl:if test="position() &gt; 1">; </xsl:if>
            <xsl:text> </xsl:text><xsl:value-of select="@role"/><xsl:text>: </xsl:text>
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

  <xsl:template name="sheet-stops">
    <xsl:variable name="all" select="$stops | $around[@word = 'stop'][score[@as = 'in-place'][not(@state = 'gone')]]"/>
    <xsl:choose>
      <xsl:when test="$all">
        <section class="stop-box" aria-labelledby="stops">
          <h2 id="stops"><xsl:value-of select="$w[@id = 'stops-here']"/></h2>
          <ul>
            <xsl:for-each select="$all">
              <li>
                <xsl:apply-templates select="score[@as = 'in-place']"/><xsl:text> </xsl:text>
                <b><xsl:value-of select="@title"/></b>
                <xsl:text>: </xsl:text>
                <xsl:apply-templates select="because[1]" mode="open"/>
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
      <xsl:otherwise><xsl:value-of select="."/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <xsl:template match="finding" mode="open-subject">
    <xsl:choose>
      <xsl:when test="(because | value | condition | when)/@withheld or rests[@sees = 'confidential'][not(@state = 'unknown')]">
        <xsl:value-of select="@who"/><xsl:if test="not(@who)"><xsl:value-of select="$w[@id = 'hidden-person']"/></xsl:if>
      </xsl:when>
      <xsl:when test="@subject = $task"/>
      <xsl:when test="key('task', @task)/immersion[@path = current()/@subject]">
        <xsl:value-of select="key('task', @task)/immersion[@path = current()/@subject]/@person-label"/>
      </xsl:when>
      <xsl:otherwise><xsl:value-of select="@subject-label"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <xsl:template name="sheet-hazards">
    <section aria-labelledby="hazards">
      <h2 id="hazards"><xsl:value-of select="$w[@id = 'top-hazards']"/></h2>
      <xsl:choose>
        <xsl:when test="$hazards">
          <div class="scroll" tabindex="0" role="group" aria-labelledby="hazards">
          <table class="compact hazards">
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
                    <span class="of">
                      <xsl:for-each select="$same">
                        <xsl:variable name="subject"><xsl:apply-templates select="." mode="open-subject"/></xsl:variable>
                        <xsl:if test="position() &gt; 1 and string($subject) != ''">, </xsl:if><xsl:value-of select="$subject"/>
                      </xsl:for-each>
                    </span></th>
                  <td><xsl:apply-templates select="because[1]" mode="open"/></td>
                  <td class="b"><xsl:call-template name="worst-of"><xsl:with-param name="findings" select="$same"/><xsl:with-param name="as" select="'described'"/></xsl:call-template></td>
                  <td class="b"><xsl:call-template name="worst-of"><xsl:with-param name="findings" select="$same"/><xsl:with-param name="as" select="'in-place'"/></xsl:call-template></td>
                </tr>
              </xsl:for-each>
            </tbody>
          </table>
          </div>
          <xsl:call-template name="by-band">
            <xsl:with-param name="these" select="$others"/><xsl:with-param name="word" select="'top-hazards-more'"/>
          </xsl:call-template>
        </xsl:when>
        <xsl:otherwise><p class="small"><xsl:value-of select="$w[@id = 'no-hazards']"/></p></xsl:otherwise>
      </xsl:choose>
      <xsl:call-template name="by-band">
        <xsl:with-param name="these" select="$around[@word = 'hazard']"/><xsl:with-param name="word" select="'all-day'"/>
      </xsl:call-template>
    </section>
  </xsl:template>

  <!-- Titles in one paragraph, the worst band first, each title once. -->
  <xsl:template name="by-band">
    <xsl:param name="these"/>
    <xsl:param name="word"/>
    <xsl:if test="$these">
      <p class="around"><span class="label"><xsl:value-of select="$w[@id = $word]"/></span>
        <xsl:for-each select="$bands">
          <xsl:sort select="@rank" data-type="number" order="descending"/>
          <xsl:variable name="band" select="@id"/>
          <xsl:variable name="in" select="$these[score[@as = 'in-place']/@worst-band = $band]"/>
          <xsl:if test="$in">
            <xsl:text> </xsl:text><xsl:call-template name="band"><xsl:with-param name="band" select="@id"/></xsl:call-template><xsl:text>: </xsl:text>
            <xsl:for-each select="$in">
              <xsl:if test="count(. | $in[@rule = current()/@rule][1]) = 1">
                <xsl:if test="count(. | $in[1]) != 1">; </xsl:if><xsl:value-of select="@title"/>
              </xsl:if>
            </xsl:for-each>
            <xsl:text>. </xsl:text>
          </xsl:if>
        </xsl:for-each>
      </p>
    </xsl:if>
  </xsl:template>


  <xsl:template name="sheet-controls">
    <section aria-labelledby="controls">
      <h2 id="controls"><xsl:value-of select="$w[@id = 'tick-controls']"/></h2>
      <xsl:choose>
        <xsl:when test="$ticks">
          <ul class="ticks three">
            <xsl:for-each select="$ticks">
              <xsl:sort select="@kind-rank" data-type="number"/>
              <li>
                <span class="box" aria-hidden="true"/>
                <span class="tick-text">
                  <b><xsl:value-of select="@title"/></b>
                  <xsl:text> </xsl:text>
                  <span class="quiet"><xsl:call-template name="here-state"/></span>
                  <xsl:for-each select="check[1]">
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
      <xsl:apply-templates select="/assessment/remedies/remedy[@task = $task]"/>
    </section>
  </xsl:template>

  <xsl:template match="remedy">
    <p class="around">
      <xsl:if test="control">
        <span class="label"><xsl:value-of select="$w[@id = 'remedy-here']"/></span>
        <xsl:for-each select="control"><xsl:if test="position() &gt; 1"> + </xsl:if><xsl:value-of select="@title"/></xsl:for-each>
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
    <xsl:choose>
      <xsl:when test="applied[@subject = $task or starts-with(@subject, concat($task, '/'))][@state = 'in-place']
                      or $here/control[@ref = current()/@ref][@state = 'in-place']">
        <xsl:value-of select="$w[@id = 'c-in-place']"/>
      </xsl:when>
      <xsl:otherwise><xsl:value-of select="$w[@id = 'c-planned']"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <xsl:template name="sheet-open">
    <xsl:if test="$open or $duties">
      <section class="two" aria-label="{$w[@id = 'open-facts-here']}">
        <xsl:if test="$open">
          <div>
            <h2><xsl:value-of select="$w[@id = 'open-facts-here']"/></h2>
            <ul class="ticks">
              <xsl:for-each select="$open[@sees != 'confidential']">
                <li><span class="box" aria-hidden="true"/><span class="tick-text">
                  <xsl:variable name="at" select="$t/immersion[starts-with(current()/@path, concat(@path, '/'))]"/>
                  <b><xsl:value-of select="@title"/></b>
                  <xsl:choose>
                    <xsl:when test="$at/@person-label">, <xsl:value-of select="$at/@person-label"/></xsl:when>
                    <xsl:when test="starts-with(@path, concat($task, '/'))"/>
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
            <h2><xsl:value-of select="$w[@id = 'duties-here']"/></h2>
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

  <xsl:template name="sheet-go">
    <section class="go" aria-labelledby="go">
      <h2 id="go"><xsl:value-of select="$w[@id = 'go']"/><xsl:text> </xsl:text><span class="go-lead"><xsl:value-of select="$w[@id = 'go-lead']"/></span></h2>
      <ul class="ticks three">
        <xsl:call-template name="go-line"><xsl:with-param name="word" select="'go-stops'"/></xsl:call-template>
        <xsl:if test="$ticks"><xsl:call-template name="go-line"><xsl:with-param name="word" select="'go-controls'"/></xsl:call-template></xsl:if>
        <xsl:if test="$open"><xsl:call-template name="go-line"><xsl:with-param name="word" select="'go-open'"/></xsl:call-template></xsl:if>
        <xsl:if test="$hazards[score[@as = 'in-place']/@worst-band = $above]"><xsl:call-template name="go-line"><xsl:with-param name="word" select="'go-above'"/></xsl:call-template></xsl:if>
        <xsl:if test="$duties"><xsl:call-template name="go-line"><xsl:with-param name="word" select="'go-duties'"/></xsl:call-template></xsl:if>
        <xsl:call-template name="go-line"><xsl:with-param name="word" select="'go-signal'"/></xsl:call-template>
      </ul>
    </section>
  </xsl:template>

  <xsl:template name="go-line">
    <xsl:param name="word"/>
    <li><span class="box" aria-hidden="true"/><span class="tick-text"><xsl:value-of select="$w[@id = $word]"/></span></li>
  </xsl:template>

  <xsl:template name="sheet-sign">
    <section aria-labelledby="sign" class="signing">
      <h2 id="sign"><xsl:value-of select="$w[@id = 's-sign']"/></h2>
      <xsl:call-template name="signatures"/>
    </section>
  </xsl:template>
</xsl:stylesheet>
