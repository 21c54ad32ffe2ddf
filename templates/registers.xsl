<?xml version="1.0" encoding="UTF-8"?>
<!-- The registers: duties, controls, facts not known, waivers, facts, evidence, inputs. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform"
  xmlns:ds="http://www.w3.org/2000/09/xmldsig#" xmlns:sig="urn:tankside:signature" exclude-result-prefixes="ds sig">

  <!-- ===== duties ===== -->

  <xsl:template name="duties">
    <section aria-labelledby="duties">
      <xsl:call-template name="section-head"><xsl:with-param name="id" select="'duties'"/></xsl:call-template>
      <xsl:choose>
        <xsl:when test="duties/duty">
          <xsl:if test="duties/duty/@check-the-text"><p class="legend"><span class="mark"><xsl:value-of select="$w[@id = 'check-mark']"/></span><xsl:text> </xsl:text><xsl:value-of select="$w[@id = 'check-the-text']"/></p></xsl:if>
          <div class="scroll" tabindex="0" role="group" aria-labelledby="duties">
          <table class="duties stack">
            <caption class="away"><xsl:value-of select="$sections[@id = 'duties']/@title"/></caption>
            <thead><tr>
              <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'duty'"/></xsl:call-template>
              <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'because'"/></xsl:call-template>
              <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'as-described'"/></xsl:call-template>
              <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'as-in-place'"/></xsl:call-template>
            </tr></thead>
            <xsl:call-template name="duties-of"><xsl:with-param name="these" select="duties/duty[@state = 'not-met']"/></xsl:call-template>
            <xsl:call-template name="duties-of"><xsl:with-param name="these" select="duties/duty[@state = 'open']"/></xsl:call-template>
            <xsl:call-template name="duties-of"><xsl:with-param name="these" select="duties/duty[@state = 'met']"/></xsl:call-template>
          </table>
          </div>
        </xsl:when>
        <xsl:otherwise><xsl:call-template name="nothing"/></xsl:otherwise>
      </xsl:choose>
    </section>
  </xsl:template>

  <xsl:key name="bound" match="duty" use="concat(@state, ' ', @rule)"/>

  <!-- One body a rule: what it is and where it is written once, then a row for each it binds. -->
  <xsl:template name="duties-of">
    <xsl:param name="these"/>
    <xsl:for-each select="$these">
      <xsl:variable name="same" select="key('bound', concat(@state, ' ', @rule))"/>
      <xsl:if test="count(. | $same[1]) = 1">
        <tbody>
          <tr class="duty-rule"><th colspan="4" scope="rowgroup"><xsl:value-of select="@title"/>
            <span class="duty-law"><xsl:call-template name="law"/>
              <xsl:for-each select="source[. != concat(../@instrument, ', ', ../@section)]"><xsl:value-of select="concat(' · ', .)"/></xsl:for-each>
              <xsl:text> </xsl:text><span class="path"><xsl:value-of select="concat(@pack, '/', @file, ':', @line)"/></span></span></th></tr>
          <xsl:apply-templates select="$same"/>
        </tbody>
      </xsl:if>
    </xsl:for-each>
  </xsl:template>

  <!-- A duty that is met rests on its facts; what was compared stands where it is not. -->
  <xsl:template match="duty">
    <tr id="{@id}">
      <xsl:call-template name="aid-marks"/>
      <th scope="row"><span class="id"><xsl:value-of select="@id"/></span><xsl:text> </xsl:text><xsl:value-of select="@subject-label"/></th>
      <td><xsl:for-each select="because"><p class="because"><xsl:value-of select="."/></p><xsl:text> </xsl:text></xsl:for-each>
        <xsl:call-template name="shown-by"/>
        <xsl:if test="@state-in-place = 'open'"><xsl:call-template name="when-met"/></xsl:if>
        <xsl:if test="@state != 'met'">
          <xsl:apply-templates select="value"/>
          <xsl:call-template name="conditions"><xsl:with-param name="these" select="condition[not(@case = 'best')]"/><xsl:with-param name="word" select="'when-so'"/></xsl:call-template>
        </xsl:if>
        <xsl:call-template name="fact-run"><xsl:with-param name="facts" select="rests"/><xsl:with-param name="subject" select="@subject"/></xsl:call-template></td>
      <td data-h="{$w[@id = 'as-described']}"><xsl:call-template name="duty-state"><xsl:with-param name="state" select="@state"/></xsl:call-template></td>
      <td data-h="{$w[@id = 'as-in-place']}"><xsl:call-template name="duty-state"><xsl:with-param name="state" select="@state-in-place"/></xsl:call-template></td>
    </tr>
  </xsl:template>

  <xsl:template name="shown-by">
    <xsl:if test="@evidence"><p class="aside"><xsl:value-of select="concat($w[@id = 'shown-by'], ' ', @evidence)"/></p><xsl:text> </xsl:text></xsl:if>
  </xsl:template>

  <xsl:template name="duty-state">
    <xsl:param name="state"/>
    <xsl:if test="string($state) != ''"><span class="duty-state {$state}"><xsl:value-of select="$w[@id = concat('duty-', $state)]"/></span></xsl:if>
  </xsl:template>

  <!-- ===== controls ===== -->

  <xsl:template name="controls">
    <section aria-labelledby="controls">
      <xsl:call-template name="section-head"><xsl:with-param name="id" select="'controls'"/></xsl:call-template>
      <xsl:choose>
        <xsl:when test="controls/control">
          <xsl:if test="controls/control/applied">
          <div class="scroll" tabindex="0" role="group" aria-labelledby="controls">
          <table class="controls">
            <caption class="away"><xsl:value-of select="$sections[@id = 'controls']/@title"/></caption>
            <thead><tr>
              <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'control'"/></xsl:call-template>
              <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'effect'"/></xsl:call-template>
              <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'check'"/></xsl:call-template>
              <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'applied'"/></xsl:call-template>
            </tr></thead>
            <tbody>
              <xsl:for-each select="controls/control[applied]">
                <xsl:sort select="@kind-rank" data-type="number"/>
                <tr id="control-{@ref}">
                  <th scope="row"><xsl:value-of select="@title"/>
                    <span class="of"><xsl:value-of select="$w[@id = concat('kind-', current()/@kind)]"/></span>
                    <xsl:if test="@file"><span class="of path"><xsl:value-of select="concat(@pack, '/', @file, ':', @line)"/></span></xsl:if></th>
                  <td><xsl:for-each select="effect"><span class="item"><xsl:value-of select="."/></span></xsl:for-each>
                    <xsl:if test="@source"><span class="of"><xsl:value-of select="concat($w[@id = 'source'], $colon, @source)"/></span></xsl:if></td>
                  <td><xsl:for-each select="check"><span class="item"><xsl:value-of select="@how"/>
                      <xsl:if test="@often">, <xsl:value-of select="@often"/></xsl:if>
                      <xsl:if test="@who"> (<xsl:value-of select="@who"/>)</xsl:if></span></xsl:for-each></td>
                  <td><xsl:for-each select="applied"><span class="item">
                      <b><xsl:value-of select="$w[@id = concat('c-', current()/@state)]"/></b><xsl:value-of select="$colon"/><xsl:value-of select="@subject-label"/><xsl:if test="not(@subject-label)"><xsl:value-of select="@subject"/></xsl:if>
                      <xsl:if test="@to"><xsl:value-of select="concat(', ', @to)"/></xsl:if>
                      <xsl:if test="@by"><xsl:value-of select="concat(', ', @by)"/></xsl:if>
                      <xsl:if test="@on"><xsl:value-of select="concat(', ', @on)"/></xsl:if>
                      <xsl:if test="@evidence"><xsl:value-of select="concat(', ', @evidence)"/></xsl:if></span></xsl:for-each></td>
                </tr>
              </xsl:for-each>
            </tbody>
          </table>
          </div>
          </xsl:if>
          <xsl:if test="controls/control[not(applied)]">
            <h3><xsl:value-of select="$w[@id = 'idle-controls']"/></h3>
            <div class="fact-list">
              <xsl:for-each select="controls/control[not(applied)]">
                <xsl:sort select="@kind-rank" data-type="number"/>
                <p id="control-{@ref}"><b><xsl:value-of select="@title"/></b><xsl:text> </xsl:text>
                  <span class="quiet"><xsl:value-of select="$w[@id = concat('kind-', current()/@kind)]"/></span>
                  <xsl:for-each select="effect"><xsl:value-of select="concat('; ', .)"/></xsl:for-each>
                  <xsl:if test="@file"><xsl:text> </xsl:text><span class="path"><xsl:value-of select="concat(@file, ':', @line)"/></span></xsl:if></p>
              </xsl:for-each>
            </div>
          </xsl:if>
        </xsl:when>
        <xsl:otherwise><xsl:call-template name="nothing"/></xsl:otherwise>
      </xsl:choose>
    </section>
  </xsl:template>

  <!-- ===== facts not known, what takes most away first ===== -->

  <xsl:template name="open-facts">
    <section aria-labelledby="open">
      <xsl:call-template name="section-head"><xsl:with-param name="id" select="'open'"/></xsl:call-template>
      <xsl:choose>
        <xsl:when test="open-facts/fact">
          <xsl:if test="open-facts/fact[@removes &gt; 0]">
          <div class="scroll" tabindex="0" role="group" aria-labelledby="open">
          <table class="open">
            <caption class="away"><xsl:value-of select="$sections[@id = 'open']/@title"/></caption>
            <thead><tr>
              <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'fact'"/></xsl:call-template>
              <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'plausible'"/></xsl:call-template>
              <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'removes'"/></xsl:call-template>
              <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'best-answer'"/></xsl:call-template>
              <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'settles'"/></xsl:call-template>
            </tr></thead>
            <!-- grouped by who knows; whoever can take most away comes first -->
            <xsl:for-each select="open-facts/fact[@removes &gt; 0][count(. | key('asked', string(@asked))[1]) = 1]">
              <tbody>
                <tr class="knows-row"><th colspan="5" scope="rowgroup" class="knows">
                  <xsl:value-of select="concat($w[@id = 'ask'], ' ', @asked)"/>
                  <xsl:if test="not(@asked)"><xsl:value-of select="$w[@id = 'asked-nobody']"/></xsl:if>
                </th></tr>
                <xsl:apply-templates select="key('asked', string(@asked))" mode="once"/>
              </tbody>
            </xsl:for-each>
          </table>
          </div>
          </xsl:if>
          <xsl:if test="open-facts/fact[not(@removes &gt; 0)]">
            <p class="aside"><span class="label"><xsl:value-of select="$w[@id = 'removes-nothing']"/></span>
              <xsl:for-each select="open-facts/fact[not(@removes &gt; 0)]">
                <xsl:if test="position() &gt; 1">; </xsl:if>
                <b><xsl:value-of select="@title"/></b><xsl:value-of select="concat(', ', @subject-label)"/>
                <xsl:if test="@asked"><xsl:value-of select="concat(' (', $w[@id = 'ask'], ' ', @asked, ')')"/></xsl:if><xsl:text> </xsl:text>
                <xsl:call-template name="links"><xsl:with-param name="ids" select="concat(normalize-space(@findings), ' ')"/></xsl:call-template>
              </xsl:for-each></p>
          </xsl:if>
        </xsl:when>
        <xsl:otherwise><xsl:call-template name="nothing"/></xsl:otherwise>
      </xsl:choose>
    </section>
  </xsl:template>

  <xsl:template match="open-facts/fact" mode="row">
    <xsl:param name="again"/>
    <xsl:variable name="findings"><xsl:for-each select=". | $again"><xsl:value-of select="concat(normalize-space(@findings), ' ')"/></xsl:for-each></xsl:variable>
    <tr id="open-{@path}">
      <th scope="row"><xsl:for-each select="$again"><span id="open-{@path}"/></xsl:for-each>
        <xsl:value-of select="@title"/><span class="of"><xsl:value-of select="@subject-label"/>
          <xsl:call-template name="asked-again"><xsl:with-param name="again" select="$again"/></xsl:call-template></span>
        <xsl:if test="@measured"><span class="of"><xsl:value-of select="@measured"/></span></xsl:if></th>
      <td><xsl:choose>
        <xsl:when test="@now"><b><xsl:value-of select="@now"/></b></xsl:when>
        <xsl:otherwise><xsl:call-template name="plausible"/><xsl:text> </xsl:text><span class="mark unknown"><xsl:value-of select="$w[@id = 'mark-unknown']"/></span></xsl:otherwise>
      </xsl:choose></td>
      <td><b><xsl:value-of select="@removes"/></b>
        <span class="of"><xsl:value-of select="concat($w[@id = 'middle'], ' ', @middle)"/></span></td>
      <td><xsl:choose>
        <xsl:when test="@best = $last-day"><xsl:value-of select="$w[@id = 'date-late']"/></xsl:when>
        <xsl:when test="@best = $first-day"><xsl:value-of select="$w[@id = 'date-early']"/></xsl:when>
        <xsl:otherwise><xsl:value-of select="@best"/></xsl:otherwise>
      </xsl:choose></td>
      <td><xsl:call-template name="links"><xsl:with-param name="ids" select="$findings"/></xsl:call-template>
        <xsl:if test="@settles &gt; 0"><span class="of"><xsl:value-of select="concat(@settles, ' % ', $w[@id = 'settles-share'])"/></span></xsl:if></td>
    </tr>
  </xsl:template>

  <!-- A date nobody knows is plausible over every day there is in the vocabulary. -->
  <xsl:variable name="first-day" select="'1900-01-01'"/>
  <xsl:variable name="last-day" select="'2100-12-31'"/>
  <xsl:template name="plausible">
    <xsl:choose>
      <xsl:when test="starts-with(@plausible, $first-day) and contains(@plausible, $last-day)"><xsl:value-of select="$w[@id = 'date-any']"/></xsl:when>
      <xsl:otherwise><xsl:call-template name="grouped"><xsl:with-param name="text" select="string(@plausible)"/></xsl:call-template></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <!-- "F1 F7 " as links: the first, and how many more. -->
  <xsl:template name="links">
    <xsl:param name="ids"/>
    <xsl:param name="room" select="24"/>
    <xsl:variable name="one" select="substring-before($ids, ' ')"/>
    <xsl:choose>
      <xsl:when test="$one != '' and $room = 0">
        <xsl:call-template name="count">
          <xsl:with-param name="id" select="'n-more'"/>
          <xsl:with-param name="n" select="string-length($ids) - string-length(translate($ids, ' ', ''))"/>
        </xsl:call-template>
      </xsl:when>
      <xsl:when test="$one != ''">
        <a href="#{$one}"><xsl:value-of select="$one"/></a><xsl:text> </xsl:text>
        <xsl:call-template name="links">
          <xsl:with-param name="ids" select="substring-after($ids, ' ')"/><xsl:with-param name="room" select="$room - 1"/>
        </xsl:call-template>
      </xsl:when>
    </xsl:choose>
  </xsl:template>

  <!-- ===== waivers and failures ===== -->

  <xsl:template name="waivers">
    <section aria-labelledby="waivers">
      <xsl:call-template name="section-head"><xsl:with-param name="id" select="'waivers'"/></xsl:call-template>
      <xsl:if test="not(waivers/waiver or amendments/amendment or history/change or failures/failure)"><xsl:call-template name="nothing"/></xsl:if>
      <ul class="points">
        <xsl:for-each select="waivers/waiver">
          <li><b><xsl:value-of select="$w[@id = 'waiver']"/></b><xsl:value-of select="$colon"/><xsl:value-of select="@rule"/>
            <xsl:if test="@subject"><xsl:value-of select="concat(', ', @subject)"/></xsl:if>
            <xsl:if test="@by"><xsl:value-of select="concat('. ', $w[@id = 'waived'], ' ', @by)"/></xsl:if>
            <xsl:if test="@until"><xsl:value-of select="concat(', ', $w[@id = 'until'], ' ', @until)"/></xsl:if>
            <xsl:if test="@because"><xsl:value-of select="concat($colon, @because)"/></xsl:if>
            <xsl:text> </xsl:text><b><xsl:choose>
              <xsl:when test="@valid = 'yes'"><xsl:value-of select="concat('(', $w[@id = 'waiver-valid'], ')')"/></xsl:when>
              <xsl:otherwise><xsl:value-of select="concat('(', $w[@id = 'waiver-invalid'], ')')"/></xsl:otherwise>
            </xsl:choose></b></li>
        </xsl:for-each>
        <xsl:for-each select="amendments/amendment">
          <li><b><xsl:value-of select="$w[@id = 'stricter']"/></b><xsl:value-of select="$colon"/><xsl:value-of select="concat(@rule, ', ')"/>
            <xsl:apply-templates select="." mode="said"/></li>
        </xsl:for-each>
        <xsl:for-each select="history/change">
          <li><b><xsl:value-of select="$w[@id = 'changed-with']"/><xsl:text> </xsl:text><xsl:value-of select="@revision"/></b>
            <xsl:value-of select="concat(', ', @on, ', ', @by, $colon, @what)"/></li>
        </xsl:for-each>
        <xsl:for-each select="failures/failure">
          <li><b><xsl:value-of select="$w[@id = 'failure']"/></b><xsl:value-of select="$colon"/><xsl:value-of select="@rule"/><xsl:if test="@subject"><xsl:value-of select="concat(', ', @subject)"/></xsl:if>.
            <span class="path"><xsl:value-of select="@text"/></span></li>
        </xsl:for-each>
      </ul>
    </section>
  </xsl:template>

  <!-- What a pack made stricter in a rule, with its reason and where it is written. -->
  <xsl:template match="amendment" mode="said">
    <xsl:if test="@limit"><xsl:value-of select="concat($w[@id = 'limit'], ' ', @limit, $colon, @from, ' → ', @to)"/></xsl:if>
    <xsl:if test="@likelihood"><xsl:value-of select="concat($w[@id = 'likelihood'], ' +', @likelihood)"/></xsl:if>
    <xsl:if test="@likelihood and @severity">, </xsl:if>
    <xsl:if test="@severity"><xsl:value-of select="concat($w[@id = 'severity'], ' +', @severity)"/></xsl:if>
    <xsl:value-of select="concat($colon, @because, ' ')"/><span class="path"><xsl:value-of select="concat(@pack, '/', @file, ':', @line)"/></span>
  </xsl:template>

  <!-- ===== what low scores rest on ===== -->

  <xsl:template name="reliance">
    <section aria-labelledby="reliance">
      <xsl:call-template name="section-head"><xsl:with-param name="id" select="'reliance'"/></xsl:call-template>
      <xsl:variable name="r" select="reliance"/>
      <ul class="points">
        <li><xsl:value-of select="concat($r/@facts, ' ', $w[@id = 'rel-facts'])"/></li>
        <li><xsl:value-of select="concat($r/@unknown, ' ', $w[@id = 'rel-unknown'])"/>
          <xsl:if test="$r/@facts &gt; 0"><xsl:value-of select="concat(' (', round(100 * $r/@unknown div $r/@facts), ' %)')"/></xsl:if></li>
        <li><xsl:value-of select="concat($r/@with-evidence, ' ', $w[@id = 'rel-with'])"/></li>
        <li><xsl:value-of select="concat($r/@without-evidence, ' ', $w[@id = 'rel-without'])"/></li>
      </ul>
      <xsl:variable name="shown" select="$r/fact[not($withhold) or @sees != 'confidential']"/>
      <xsl:if test="$shown">
      <div class="scroll" tabindex="0" role="group" aria-labelledby="reliance">
      <table>
        <caption class="away"><xsl:value-of select="$sections[@id = 'reliance']/@title"/></caption>
        <thead><tr>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'fact'"/></xsl:call-template>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'rel-assumed'"/></xsl:call-template>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'rel-low'"/></xsl:call-template>
        </tr></thead>
        <tbody>
          <xsl:for-each select="$shown">
            <tr>
              <th scope="row"><xsl:value-of select="@title"/><span class="of"><xsl:value-of select="@subject-label"/></span></th>
              <td><xsl:value-of select="@assumed"/></td>
              <td><xsl:value-of select="@findings"/></td>
            </tr>
          </xsl:for-each>
        </tbody>
      </table>
      </div>
      </xsl:if>
    </section>
  </xsl:template>

  <!-- ===== facts and evidence ===== -->

  <xsl:template name="facts">
    <section aria-labelledby="facts">
      <xsl:call-template name="section-head"><xsl:with-param name="id" select="'facts'"/></xsl:call-template>
      <xsl:if test="not(subjects/subject/fact[@assumed = 'yes' or @state = 'unknown'])"><xsl:call-template name="nothing"/></xsl:if>
      <div class="fact-list">
        <xsl:for-each select="subjects/subject">
          <xsl:variable name="left" select="fact[@assumed = 'yes' or @state = 'unknown']"/>
          <xsl:if test="$left">
          <p><b><xsl:value-of select="@label"/></b><xsl:text> </xsl:text><span class="path"><xsl:value-of select="@path"/></span><xsl:text> </xsl:text>
            <xsl:for-each select="$left">
              <xsl:if test="position() &gt; 1">; </xsl:if>
              <xsl:value-of select="concat(@title, ' ')"/><xsl:call-template name="fact-said"/>
              <xsl:call-template name="marks"><xsl:with-param name="fact" select="."/></xsl:call-template>
            </xsl:for-each>
          </p>
          </xsl:if>
        </xsl:for-each>
      </div>
    </section>
  </xsl:template>

  <!-- A fact's value, for those who may see it; that it is not known is no secret. -->
  <xsl:template name="fact-said">
    <xsl:choose>
      <xsl:when test="$withhold and @sees = 'confidential' and @state != 'unknown'"><xsl:value-of select="$w[@id = 'withheld']"/></xsl:when>
      <xsl:otherwise><xsl:value-of select="@text"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <xsl:template name="evidence">
    <section aria-labelledby="evidence">
      <xsl:call-template name="section-head"><xsl:with-param name="id" select="'evidence'"/></xsl:call-template>
      <xsl:choose>
        <xsl:when test="subjects/subject/fact/evidence">
          <div class="scroll" tabindex="0" role="group" aria-labelledby="evidence">
          <table class="evidence">
            <caption class="away"><xsl:value-of select="$sections[@id = 'evidence']/@title"/></caption>
            <thead><tr>
              <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'fact'"/></xsl:call-template>
              <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'value'"/></xsl:call-template>
              <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'evidence'"/></xsl:call-template>
              <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'where'"/></xsl:call-template>
            </tr></thead>
            <tbody>
              <xsl:for-each select="subjects/subject/fact/evidence">
                <tr>
                  <xsl:if test="not(preceding-sibling::evidence)"><xsl:attribute name="id"><xsl:value-of select="concat('evidence-', ../../@path, '/', ../@name)"/></xsl:attribute></xsl:if>
                  <th scope="row"><xsl:value-of select="../@title"/><span class="of"><xsl:value-of select="../../@label"/></span></th>
                  <td><xsl:for-each select=".."><xsl:call-template name="fact-said"/></xsl:for-each></td>
                  <td><xsl:for-each select="@kind | @by | @on | @ref"><xsl:if test="position() &gt; 1">, </xsl:if><xsl:value-of select="."/></xsl:for-each></td>
                  <td><span class="path"><xsl:value-of select="../@file"/><xsl:if test="../@line"><xsl:value-of select="concat(':', ../@line)"/></xsl:if></span></td>
                </tr>
              </xsl:for-each>
            </tbody>
          </table>
          </div>
        </xsl:when>
        <xsl:otherwise><xsl:call-template name="nothing"/></xsl:otherwise>
      </xsl:choose>
    </section>
  </xsl:template>

  <!-- ===== inputs ===== -->

  <xsl:template name="inputs">
    <section aria-labelledby="inputs">
      <xsl:call-template name="section-head"><xsl:with-param name="id" select="'inputs'"/></xsl:call-template>
      <div class="scroll" tabindex="0" role="group" aria-labelledby="inputs">
      <table class="inputs">
        <caption class="away"><xsl:value-of select="$sections[@id = 'inputs']/@title"/></caption>
        <thead><tr>
          <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'file'"/></xsl:call-template>
          <th scope="col">SHA-256</th>
        </tr></thead>
        <tbody>
          <xsl:for-each select="inputs/dossier | inputs/rules | inputs/matrix">
            <tr><th scope="row"><xsl:if test="@pack"><xsl:value-of select="concat(@pack, '/')"/></xsl:if><xsl:value-of select="@file"/></th>
              <td class="path"><xsl:value-of select="@sha256"/></td></tr>
          </xsl:for-each>
          <xsl:for-each select="inputs/signed">
            <tr><th scope="row"><xsl:value-of select="concat($w[@id = 'signature'], ' (', @pack, ')')"/></th>
              <td><xsl:value-of select="concat(@by, ', ', @as, ', ', @on, '. ', $w[@id = 'signature-check'])"/></td></tr>
          </xsl:for-each>
          <tr><th scope="row"><xsl:value-of select="$w[@id = 'digest']"/></th><td class="path"><b><xsl:value-of select="$digest"/></b></td></tr>
          <xsl:for-each select="/assessment/ds:Signature">
            <tr><th scope="row"><xsl:value-of select="$w[@id = 'signature']"/></th>
              <td><xsl:value-of select="concat(.//sig:as, ', ', .//sig:on, '. ', $w[@id = 'signature-check'])"/></td></tr>
          </xsl:for-each>
        </tbody>
      </table>
      </div>
      <xsl:if test="inputs/set">
        <p><span class="label"><xsl:value-of select="$w[@id = 'set-facts']"/></span>
          <xsl:for-each select="inputs/set"><xsl:if test="position() &gt; 1">; </xsl:if><span class="path"><xsl:value-of select="concat(@path, ' = ', @value)"/></span></xsl:for-each></p>
      </xsl:if>
    </section>
  </xsl:template>

  <xsl:template name="sign-off">
    <section aria-labelledby="sign">
      <xsl:call-template name="section-head"><xsl:with-param name="id" select="'sign'"/></xsl:call-template>
      <xsl:call-template name="signatures"/>
    </section>
  </xsl:template>
</xsl:stylesheet>
