<?xml version="1.0" encoding="UTF-8"?>
<!-- The register over many assessments as a page. It is whole without its script, which only sorts
     and searches. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">
  <xsl:import href="common.xsl"/>
  <xsl:include href="book-parts.xsl"/>
  <xsl:variable name="aids" select="true()"/>
  <xsl:variable name="named" select="40"/>

  <xsl:template match="book" mode="title"><xsl:call-template name="head-line"/></xsl:template>

  <xsl:template name="head-line">
    <xsl:value-of select="$b[@id = 'book']"/>
    <xsl:if test="@on"><xsl:value-of select="concat(', ', $b[@id = 'as-of'], ' ', @on)"/></xsl:if>
  </xsl:template>

  <xsl:template match="book" mode="body">
    <main id="content">
      <header class="cover">
        <p class="kicker"><xsl:value-of select="$b[@id = 'register']"/></p>
        <h1><xsl:call-template name="head-line"/></h1>
        <p class="lead"><xsl:value-of select="$b[@id = 'lead']"/></p>
        <xsl:if test="not(@on)"><p class="lead"><xsl:value-of select="$b[@id = 'no-day']"/></p></xsl:if>
        <ul class="big">
          <xsl:call-template name="figure"><xsl:with-param name="of-book" select="'assessments-head'"/><xsl:with-param name="n" select="@read"/></xsl:call-template>
          <xsl:call-template name="figure"><xsl:with-param name="of-book" select="'reason-stops'"/><xsl:with-param name="n" select="sum(assessment/@stops)"/></xsl:call-template>
          <xsl:call-template name="figure"><xsl:with-param name="of-book" select="'above'"/><xsl:with-param name="n" select="sum(assessment/@above)"/></xsl:call-template>
          <xsl:call-template name="figure"><xsl:with-param name="of-book" select="'reason-duties'"/><xsl:with-param name="n" select="sum(assessment/@duties_not_met)"/></xsl:call-template>
          <xsl:call-template name="figure"><xsl:with-param name="of-book" select="'minors-head'"/><xsl:with-param name="n" select="sum(assessment/@minors)"/></xsl:call-template>
          <xsl:call-template name="figure"><xsl:with-param name="of-book" select="'unread-head'"/><xsl:with-param name="n" select="@unread"/></xsl:call-template>
        </ul>
      </header>
      <xsl:call-template name="first"/>
      <xsl:if test="unread">
        <section aria-labelledby="unread">
          <h2 id="unread"><xsl:value-of select="$b[@id = 'unread-head']"/></h2>
          <ul class="plain"><xsl:for-each select="unread"><li><span class="path"><xsl:value-of select="@file"/><xsl:if test="@line"><xsl:value-of select="concat(':', @line)"/></xsl:if></span>: <xsl:value-of select="@reason"/></li></xsl:for-each></ul>
        </section>
      </xsl:if>
      <xsl:call-template name="table-of-all"/>
      <xsl:call-template name="tables-below"/>
      <p class="caution-box"><xsl:value-of select="concat($b[@id = 'caution'], ' ', $w[@id = 'caution'])"/></p>
      <p class="quiet"><xsl:value-of select="concat($w[@id = 'written-by'], ' ', @tankside)"/></p>
    </main>
  </xsl:template>

  <xsl:template name="figure">
    <xsl:param name="of-book"/>
    <xsl:param name="n"/>
    <li><xsl:if test="$n = 0"><xsl:attribute name="class">zero</xsl:attribute></xsl:if>
      <b><xsl:value-of select="$n"/></b> <xsl:value-of select="$b[@id = $of-book]"/></li>
  </xsl:template>

  <xsl:template name="th">
    <xsl:param name="of-book"/>
    <xsl:param name="class"/>
    <xsl:param name="of"/>
    <th scope="col">
      <xsl:if test="$class"><xsl:attribute name="class"><xsl:value-of select="$class"/></xsl:attribute></xsl:if>
      <span class="of-head"><xsl:value-of select="$b[@id = $of-book]"/></span>
      <xsl:if test="$of != ''"><span class="of"><xsl:value-of select="$of"/></span></xsl:if>
    </th>
  </xsl:template>

  <!-- ===== what to look at first ===== -->

  <xsl:template name="first">
    <section aria-labelledby="first">
      <h2 id="first"><xsl:value-of select="$b[@id = 'first']"/></h2>
      <xsl:choose>
        <xsl:when test="reason">
          <table class="book-first">
            <caption class="away"><xsl:value-of select="$b[@id = 'first']"/></caption>
            <thead><tr>
              <xsl:call-template name="th"><xsl:with-param name="of-book" select="'reason'"/></xsl:call-template>
              <xsl:call-template name="th"><xsl:with-param name="of-book" select="'which'"/></xsl:call-template>
            </tr></thead>
            <tbody><xsl:apply-templates select="reason"/></tbody>
          </table>
        </xsl:when>
        <xsl:otherwise><p><xsl:value-of select="$b[@id = 'nothing-first']"/></p></xsl:otherwise>
      </xsl:choose>
    </section>
  </xsl:template>

  <xsl:template match="/book/reason">
    <xsl:variable name="why" select="@reason"/>
    <tr>
      <th scope="row"><xsl:value-of select="$b[@id = concat('reason-', $why)]"/>
        <span class="of"><xsl:call-template name="number-of"><xsl:with-param name="id" select="'assessments'"/><xsl:with-param name="n" select="@assessments"/></xsl:call-template></span></th>
      <td><xsl:for-each select="key('because', $why)[position() &lt;= $named]">
        <xsl:if test="position() &gt; 1">; </xsl:if>
        <a href="#a{@id}"><xsl:call-template name="name-of"/></a>&#160;(<xsl:value-of select="reason[@reason = $why]/@n"/>)</xsl:for-each><xsl:call-template name="and-more"/></td>
    </tr>
  </xsl:template>

  <!-- ===== the register ===== -->

  <xsl:template name="table-of-all">
    <section aria-labelledby="register">
      <h2 id="register"><xsl:value-of select="$b[@id = 'register']"/></h2>
      <div class="scroll" tabindex="0" role="region" aria-labelledby="register">
        <table class="book" id="book" data-sort="{$b[@id = 'sort']}">
          <caption class="away"><xsl:value-of select="$b[@id = 'register']"/></caption>
          <thead><tr>
            <xsl:call-template name="th"><xsl:with-param name="of-book" select="'production'"/></xsl:call-template>
            <xsl:call-template name="th"><xsl:with-param name="of-book" select="'where'"/></xsl:call-template>
            <xsl:call-template name="th"><xsl:with-param name="of-book" select="'signed'"/></xsl:call-template>
            <xsl:call-template name="th"><xsl:with-param name="of-book" select="'reason-stops'"/><xsl:with-param name="class" select="'n'"/></xsl:call-template>
            <xsl:call-template name="th"><xsl:with-param name="of-book" select="'above'"/><xsl:with-param name="class" select="'n'"/></xsl:call-template>
            <xsl:call-template name="th"><xsl:with-param name="of-book" select="'duties'"/><xsl:with-param name="class" select="'n'"/><xsl:with-param name="of" select="concat($b[@id = 'not-met'], ' / ', $b[@id = 'open'])"/></xsl:call-template>
            <xsl:call-template name="th"><xsl:with-param name="of-book" select="'questions-head'"/><xsl:with-param name="class" select="'n'"/></xsl:call-template>
            <xsl:call-template name="th"><xsl:with-param name="of-book" select="'under'"/><xsl:with-param name="class" select="'n'"/><xsl:with-param name="of" select="$b[@id = 'person-minutes']"/></xsl:call-template>
            <xsl:call-template name="th"><xsl:with-param name="of-book" select="'wet'"/><xsl:with-param name="class" select="'n'"/><xsl:with-param name="of" select="$b[@id = 'person-minutes']"/></xsl:call-template>
            <xsl:call-template name="th"><xsl:with-param name="of-book" select="'deepest'"/><xsl:with-param name="class" select="'n'"/></xsl:call-template>
            <xsl:call-template name="th"><xsl:with-param name="of-book" select="'tasks-head'"/><xsl:with-param name="class" select="'n'"/></xsl:call-template>
            <xsl:call-template name="th"><xsl:with-param name="of-book" select="'minors-head'"/><xsl:with-param name="class" select="'n'"/></xsl:call-template>
          </tr></thead>
          <xsl:apply-templates select="assessment"/>
        </table>
      </div>
    </section>
  </xsl:template>

  <!-- A group of rows for each: its figures, and what is to be said besides. -->
  <xsl:template match="assessment">
    <tbody id="a{@id}">
      <tr>
        <th scope="row"><xsl:call-template name="name-of"/>
          <span class="of"><xsl:if test="@reference"><xsl:value-of select="concat(@reference, ', ')"/></xsl:if><xsl:call-template name="edition"/></span>
          <span class="of path"><xsl:value-of select="@file"/></span></th>
        <td><xsl:value-of select="@jurisdiction"/><span class="of"><xsl:value-of select="@places"/></span></td>
        <td><xsl:choose>
          <xsl:when test="signature"><xsl:for-each select="signature"><span class="signer"><xsl:call-template name="signature-mark"/><xsl:call-template name="signer"/></span></xsl:for-each></xsl:when>
          <xsl:otherwise><xsl:value-of select="$b[@id = 'signed-unsigned']"/></xsl:otherwise>
        </xsl:choose></td>
        <td class="n" data-n="{@stops}"><xsl:call-template name="counted"><xsl:with-param name="n" select="@stops"/></xsl:call-template></td>
        <td class="n" data-n="{@above}"><xsl:call-template name="counted"><xsl:with-param name="n" select="@above"/></xsl:call-template></td>
        <td class="n" data-n="{@duties_not_met + @duties_open div 1000}"><xsl:call-template name="counted"><xsl:with-param name="n" select="@duties_not_met"/></xsl:call-template><xsl:value-of select="concat(' / ', @duties_open)"/></td>
        <td class="n" data-n="{@open_facts}"><xsl:value-of select="@open_facts"/></td>
        <td class="n" data-n="{@under_high}"><xsl:call-template name="minutes"><xsl:with-param name="low" select="@under_low"/><xsl:with-param name="high" select="@under_high"/><xsl:with-param name="unknown" select="@under_unknown"/></xsl:call-template></td>
        <td class="n" data-n="{@wet_high}"><xsl:call-template name="minutes"><xsl:with-param name="low" select="@wet_low"/><xsl:with-param name="high" select="@wet_high"/><xsl:with-param name="unknown" select="@wet_unknown"/></xsl:call-template></td>
        <td class="n" data-n="{@deepest}"><xsl:call-template name="deepest"/></td>
        <td class="n" data-n="{@tasks}"><xsl:value-of select="concat(@tasks, ', ', @days)"/></td>
        <td class="n" data-n="{@minors + @ages_unknown div 1000}"><xsl:value-of select="@minors"/><xsl:if test="@ages_unknown &gt; 0"><span class="of"><xsl:call-template name="number-of"><xsl:with-param name="id" select="'ages'"/><xsl:with-param name="n" select="@ages_unknown"/></xsl:call-template></span></xsl:if></td>
      </tr>
      <xsl:if test="@complete = 'no' or failure or lapse or waiver or unusual">
        <tr class="besides"><td colspan="12"><ul>
          <xsl:if test="@complete = 'no'"><li><b><xsl:value-of select="$b[@id = 'incomplete']"/></b></li></xsl:if>
          <xsl:for-each select="failure | lapse[@entity != 'waiver'] | waiver | unusual"><li><xsl:apply-templates select="."/></li></xsl:for-each>
        </ul></td></tr>
      </xsl:if>
    </tbody>
  </xsl:template>

  <xsl:template name="counted">
    <xsl:param name="n"/>
    <xsl:choose><xsl:when test="$n &gt; 0"><b><xsl:value-of select="$n"/></b></xsl:when><xsl:otherwise>0</xsl:otherwise></xsl:choose>
  </xsl:template>

  <!-- What does not hold is marked by a word in a frame, not by colour. -->
  <xsl:template name="signature-mark">
    <xsl:if test="@state = 'altered' or @state = 'unknown'"><span class="mark unknown">!</span><xsl:text> </xsl:text></xsl:if>
  </xsl:template>

  <!-- ===== the book from other sides ===== -->

  <xsl:template name="tables-below">
    <section aria-labelledby="jurisdictions">
      <h2 id="jurisdictions"><xsl:value-of select="$b[@id = 'jurisdictions']"/></h2>
      <table>
        <caption class="away"><xsl:value-of select="$b[@id = 'jurisdictions']"/></caption>
        <thead><tr>
          <xsl:call-template name="th"><xsl:with-param name="of-book" select="'jurisdiction'"/></xsl:call-template>
          <xsl:for-each select="$b[@id = 'assessments-head' or @id = 'reason-stops' or @id = 'above' or @id = 'reason-duties' or @id = 'minors-head' or @id = 'under' or @id = 'deepest']">
            <xsl:sort select="string-length(substring-before('assessments-head reason-stops above reason-duties minors-head under deepest', @id))" data-type="number"/>
            <xsl:call-template name="th"><xsl:with-param name="of-book" select="@id"/><xsl:with-param name="class" select="'n'"/>
              <xsl:with-param name="of"><xsl:if test="@id = 'under'"><xsl:value-of select="$b[@id = 'person-minutes']"/></xsl:if></xsl:with-param></xsl:call-template>
          </xsl:for-each>
        </tr></thead>
        <tbody><xsl:for-each select="jurisdiction"><tr>
          <th scope="row"><xsl:value-of select="@jurisdiction"/></th>
          <xsl:for-each select="@assessments | @stops | @above | @duties_not_met | @minors | @under_high | @deepest">
            <td class="n"><xsl:value-of select="number(.)"/><xsl:if test="name() = 'deepest'"> m</xsl:if></td>
          </xsl:for-each>
        </tr></xsl:for-each></tbody>
      </table>
    </section>
    <section aria-labelledby="rules">
      <h2 id="rules"><xsl:value-of select="$b[@id = 'rules']"/></h2>
      <table>
        <caption class="away"><xsl:value-of select="$b[@id = 'rules']"/></caption>
        <thead><tr>
          <xsl:call-template name="th"><xsl:with-param name="of-book" select="'rule'"/></xsl:call-template>
          <xsl:call-template name="th"><xsl:with-param name="of-book" select="'assessments-head'"/><xsl:with-param name="class" select="'n'"/></xsl:call-template>
          <xsl:call-template name="th"><xsl:with-param name="of-book" select="'findings'"/><xsl:with-param name="class" select="'n'"/></xsl:call-template>
          <xsl:call-template name="th"><xsl:with-param name="of-book" select="'worst'"/><xsl:with-param name="class" select="'n'"/></xsl:call-template>
        </tr></thead>
        <tbody><xsl:for-each select="rule"><tr>
          <th scope="row"><xsl:value-of select="@title"/><span class="of path"><xsl:value-of select="@rule"/></span></th>
          <td class="n"><xsl:value-of select="@assessments"/></td><td class="n"><xsl:value-of select="@findings"/></td><td class="n"><xsl:value-of select="@worst"/></td>
        </tr></xsl:for-each></tbody>
      </table>
    </section>
    <section aria-labelledby="packs">
      <h2 id="packs"><xsl:value-of select="$b[@id = 'packs']"/></h2>
      <table>
        <caption class="away"><xsl:value-of select="$b[@id = 'packs']"/></caption>
        <thead><tr>
          <xsl:call-template name="th"><xsl:with-param name="of-book" select="'packs'"/></xsl:call-template>
          <xsl:call-template name="th"><xsl:with-param name="of-book" select="'origin'"/></xsl:call-template>
          <xsl:call-template name="th"><xsl:with-param name="of-book" select="'assessments-head'"/><xsl:with-param name="class" select="'n'"/></xsl:call-template>
          <xsl:call-template name="th"><xsl:with-param name="of-book" select="'files'"/><xsl:with-param name="class" select="'n'"/></xsl:call-template>
          <xsl:call-template name="th"><xsl:with-param name="of-book" select="'digest'"/></xsl:call-template>
        </tr></thead>
        <tbody><xsl:for-each select="pack"><tr>
          <th scope="row"><xsl:value-of select="@name"/></th>
          <td><xsl:choose>
            <xsl:when test="@origin = 'as shipped'"><xsl:value-of select="$b[@id = 'as-shipped']"/></xsl:when>
            <xsl:otherwise><b><xsl:value-of select="$b[@id = translate(current()/@origin, ' ', '-')]"/></b></xsl:otherwise>
          </xsl:choose></td>
          <td class="n"><xsl:value-of select="concat(@assessments, ' ', $b[@id = 'of'], ' ', @of_all)"/></td>
          <td class="n"><xsl:value-of select="@files"/></td>
          <td class="path"><xsl:value-of select="@digest"/></td>
        </tr></xsl:for-each></tbody>
      </table>
    </section>
  </xsl:template>

  <!-- What reading.js shows: nothing to a reader whose browser runs no script. -->
  <xsl:template name="aids">
    <template id="search">
      <div class="aids" role="search" aria-label="{$b[@id = 'search']}">
        <label><xsl:value-of select="$b[@id = 'search']"/><xsl:text> </xsl:text><input type="search"/></label>
        <output data-words="{$b[@id = 'shown']}"></output>
      </div>
    </template>
  </xsl:template>
</xsl:stylesheet>
