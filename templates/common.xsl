<?xml version="1.0" encoding="UTF-8"?>
<!-- What every sheet shares: the page around the content, the status mark, the
     band mark. Words come by words.xsl, colours and fills from
     palette.xml; the style sheet arrives as the parameter `css`. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">
  <xsl:include href="words.xsl"/>
  <xsl:output method="html" encoding="UTF-8" indent="no"/>

  <xsl:param name="css"/>
  <xsl:param name="browser-css"/>
  <xsl:param name="sheets-css"/>
  <xsl:param name="script"/>
  <xsl:param name="script-digest"/>
  <!-- A page with aids for reading on a screen sets this to true. -->
  <xsl:variable name="aids" select="false()"/>
  <xsl:param name="sheet"/>
  <xsl:param name="task"/>
  <!-- A sheet for readers who may not see confidential facts sets this to true. -->
  <xsl:variable name="withhold" select="false()"/>

  <xsl:variable name="palette" select="document('palette.xml')/palette"/>
  <xsl:variable name="root" select="/*"/>
  <xsl:variable name="production" select="/*/production"/>
  <xsl:variable name="bands" select="/*/matrix/band"/>
  <xsl:variable name="above" select="$bands[@above = 'yes']/@id"/>
  <xsl:variable name="digest" select="/assessment/inputs/digest/@sha256"/>
  <xsl:variable name="top-rank">
    <xsl:for-each select="$bands">
      <xsl:sort select="@rank" data-type="number" order="descending"/>
      <xsl:if test="position() = 1"><xsl:value-of select="@rank"/></xsl:if>
    </xsl:for-each>
  </xsl:variable>
  <xsl:variable name="incomplete" select="$root/@complete = 'no' or $root/@failed &gt; 0"/>
  <xsl:variable name="draft"
    select="$incomplete or $root/@stops &gt; 0 or $root/@open &gt; 0 or $root/@waived &gt; 0"/>

  <xsl:key name="band" match="/*/matrix/band" use="@id"/>
  <xsl:key name="asked" match="/assessment/open-facts/fact[@removes &gt; 0]" use="string(@asked)"/>
  <!-- The same of the same person, asked for several tasks, stated alike and worth the same: one row. -->
  <xsl:key name="asked-again" match="open-facts/fact" use="concat(@asked, '|', substring-after(@path, '/'), '|', @meaning, '|', @now, '|', @removes, '|', @middle, '|', @best, '|', @settles, '|',
    boolean(key('task', substring-before(@path, '/'))), '|', substring(@path, 1, 400 * not(key('task', substring-before(@path, '/')))))"/>
  <xsl:key name="fact" match="/assessment/subjects/subject/fact" use="concat(../@path, '/', @name)"/>
  <xsl:key name="subject" match="/assessment/subjects/subject" use="@path"/>
  <xsl:key name="task" match="/assessment/schedule/day/task" use="@path"/>

  <!-- ===== words ===== -->

  <xsl:template name="count">
    <xsl:param name="id"/>
    <xsl:param name="n"/>
    <xsl:variable name="c" select="$w[@id = $id]"/>
    <xsl:choose>
      <xsl:when test="$n = 0"><xsl:value-of select="$c/@none"/></xsl:when>
      <xsl:when test="$n = 1"><xsl:value-of select="$c/@one"/></xsl:when>
      <xsl:otherwise>
        <xsl:value-of select="substring-before($c/@many, '{n}')"/>
        <xsl:value-of select="$n"/>
        <xsl:value-of select="substring-after($c/@many, '{n}')"/>
      </xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <!-- The word that follows a number. -->
  <xsl:template name="word-for">
    <xsl:param name="n"/>
    <xsl:param name="id"/>
    <xsl:value-of select="$w[@id = $id]/@one[$n = 1] | $w[@id = $id][not(@one and $n = 1)]"/>
  </xsl:template>

  <!-- A row for what is asked, with whatever asks the same again. -->
  <xsl:template match="open-facts/fact" mode="once">
    <xsl:variable name="same" select="key('asked-again', concat(@asked, '|', substring-after(@path, '/'), '|', @meaning, '|', @now, '|', @removes, '|', @middle, '|', @best, '|', @settles, '|',
      boolean(key('task', substring-before(@path, '/'))), '|', substring(@path, 1, 400 * not(key('task', substring-before(@path, '/'))))))"/>
    <xsl:if test="count(. | $same[1]) = 1"><xsl:apply-templates select="." mode="row"><xsl:with-param name="again" select="$same[position() &gt; 1]"/></xsl:apply-templates></xsl:if>
  </xsl:template>

  <xsl:template name="asked-again">
    <xsl:param name="again"/>
    <xsl:if test="$again"><xsl:value-of select="concat('; ', $w[@id = 'question-again'])"/></xsl:if>
    <xsl:for-each select="$again">
      <xsl:variable name="t" select="key('task', substring-before(@path, '/'))"/>
      <xsl:value-of select="concat(' ', $t/../@date, ' ', $t/@start)"/><xsl:if test="position() != last()">,</xsl:if>
    </xsl:for-each>
  </xsl:template>

  <!-- A text with whole numbers of six digits and more in threes: 100 000 000. -->
  <xsl:decimal-format name="in-threes" grouping-separator="&#160;"/>
  <xsl:template name="grouped">
    <xsl:param name="text"/>
    <xsl:variable name="as-zeros" select="translate($text, '123456789', '000000000')"/>
    <xsl:choose>
      <xsl:when test="contains($as-zeros, '000000')">
        <xsl:variable name="before" select="substring($text, 1, string-length(substring-before($as-zeros, '000000')))"/>
        <xsl:variable name="rest" select="substring($text, string-length($before) + 1)"/>
        <xsl:variable name="number" select="substring-before(concat($rest, 'x'), substring(concat(translate($rest, '0123456789', ''), 'x'), 1, 1))"/>
        <xsl:variable name="fraction" select="substring($before, string-length($before)) = '.' and substring($before, string-length($before) - 1) != '..'"/>
        <xsl:value-of select="$before"/>
        <xsl:choose>
          <xsl:when test="$fraction or starts-with($number, '0') or string-length($number) &gt; 15"><xsl:value-of select="$number"/></xsl:when>
          <xsl:otherwise><xsl:value-of select="format-number($number, '#&#160;##0', 'in-threes')"/></xsl:otherwise>
        </xsl:choose>
        <xsl:call-template name="grouped"><xsl:with-param name="text" select="substring($rest, string-length($number) + 1)"/></xsl:call-template>
      </xsl:when>
      <xsl:otherwise><xsl:value-of select="$text"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <!-- The text, or as many characters of it as there is room for. -->
  <xsl:template name="fit">
    <xsl:param name="text"/>
    <xsl:param name="chars"/>
    <xsl:choose>
      <xsl:when test="string-length($text) &lt;= $chars"><xsl:value-of select="$text"/></xsl:when>
      <xsl:when test="$chars &gt; 1"><xsl:value-of select="concat(substring($text, 1, $chars - 1), '…')"/></xsl:when>
    </xsl:choose>
  </xsl:template>

  <!-- ===== what may be shown to whom ===== -->

  <xsl:template match="@text | @words" mode="said">
    <xsl:choose>
      <xsl:when test="$withhold and ../@withheld"><xsl:value-of select="../@withheld"/></xsl:when>
      <xsl:otherwise><xsl:value-of select="."/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <!-- A value with its working; where the value is withheld, so is the working. -->
  <xsl:template match="value">
    <p class="working">
      <xsl:value-of select="@title"/><xsl:if test="not(@title)"><xsl:value-of select="@name"/></xsl:if>
      <xsl:if test="@names"><xsl:text> = </xsl:text><xsl:value-of select="@names"/></xsl:if>
      <xsl:text> = </xsl:text>
      <xsl:choose>
        <xsl:when test="$withhold and @withheld"><b><xsl:value-of select="@withheld"/></b></xsl:when>
        <xsl:when test="not(@working)"><b><xsl:value-of select="@text"/></b></xsl:when>
        <xsl:when test="substring(@working, string-length(@working) - string-length(@text) + 1) = @text">
          <xsl:value-of select="substring(@working, 1, string-length(@working) - string-length(@text))"/>
          <b><xsl:value-of select="@text"/></b>
        </xsl:when>
        <xsl:otherwise><xsl:value-of select="@working"/> = <b><xsl:value-of select="@text"/></b></xsl:otherwise>
      </xsl:choose>
    </p><xsl:text> </xsl:text>
  </xsl:template>

  <!-- ===== the page ===== -->

  <!-- Start of every sheet; each stylesheet supplies mode="title" and mode="body". -->
  <xsl:template match="/">
    <xsl:apply-templates select="*" mode="page"/>
  </xsl:template>

  <!-- `of`: the path of the task, where the page is for one. -->
  <xsl:template match="*" mode="page">
    <xsl:param name="of" select="$task"/>
    <xsl:variable name="title"><xsl:apply-templates select="." mode="title"><xsl:with-param name="of" select="$of"/></xsl:apply-templates></xsl:variable>
    <html lang="{$words/@lang}">
      <head>
        <title><xsl:value-of select="$title"/></title>
        <!-- Nothing is fetched from anywhere, and only our own script may run. -->
        <meta http-equiv="Content-Security-Policy">
          <xsl:attribute name="content">
            <xsl:text>default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'; script-src </xsl:text>
            <xsl:choose>
              <xsl:when test="$aids"><xsl:value-of select='concat("&apos;sha256-", $script-digest, "&apos;")'/></xsl:when>
              <xsl:otherwise>'none'</xsl:otherwise>
            </xsl:choose>
          </xsl:attribute>
        </meta>
        <meta name="viewport" content="width=device-width, initial-scale=1"/>
        <meta name="generator" content="tankside {/assessment/@tankside}"/>
        <!-- Keywords are what a PDF keeps too. -->
        <xsl:if test="/assessment/@sha256"><meta name="keywords" content="assessment.xml sha256 {/assessment/@sha256}"/></xsl:if>
        <xsl:if test="$production/@by"><meta name="author" content="{$production/@by}"/></xsl:if>
        <xsl:if test="$production/@on">
          <meta name="dcterms.created" content="{$production/@on}"/>
          <meta name="dcterms.modified" content="{$production/@on}"/>
        </xsl:if>
        <style>
          <xsl:call-template name="fills"/>
          <xsl:call-template name="coloured"><xsl:with-param name="css" select="concat($css, $sheets-css)"/></xsl:call-template>
        </style>
        <!-- A condition that browsers meet and WeasyPrint does not know: it skips what it would warn about. -->
        <style media="all and (min-width: 0)">
          <xsl:call-template name="coloured"><xsl:with-param name="css" select="$browser-css"/></xsl:call-template>
        </style>
      </head>
      <body>
        <xsl:if test="$sheet != ''"><xsl:attribute name="class"><xsl:value-of select="concat('sheet-', $sheet)"/></xsl:attribute></xsl:if>
        <xsl:attribute name="data-title">
          <xsl:call-template name="fit"><xsl:with-param name="text" select="$title"/><xsl:with-param name="chars" select="84"/></xsl:call-template>
        </xsl:attribute>
        <xsl:attribute name="data-revision">
          <xsl:if test="$production/@reference">
            <xsl:call-template name="fit"><xsl:with-param name="text" select="$production/@reference"/><xsl:with-param name="chars" select="18"/></xsl:call-template> · </xsl:if>
          <xsl:value-of select="$w[@id = 'revision']"/><xsl:text> </xsl:text>
          <xsl:call-template name="stated"><xsl:with-param name="text" select="$production/@revision"/></xsl:call-template>
          <xsl:if test="$production/@on"> · <xsl:value-of select="$production/@on"/></xsl:if>
        </xsl:attribute>
        <xsl:attribute name="data-foot">
          <xsl:value-of select="$w[@id = 'caution-short']"/>
          <xsl:text> · </xsl:text><xsl:value-of select="$w[@id = 'digest-short']"/>
          <xsl:text> </xsl:text><xsl:value-of select="substring($digest, 1, 12)"/>
        </xsl:attribute>
        <xsl:attribute name="data-page"><xsl:value-of select="$w[@id = 'page']"/><xsl:text> </xsl:text></xsl:attribute>
        <xsl:attribute name="data-part"><xsl:value-of select="$w[@id = 'part']"/><xsl:text> </xsl:text></xsl:attribute>
        <xsl:attribute name="data-of"><xsl:text> </xsl:text><xsl:value-of select="$w[@id = 'of']"/><xsl:text> </xsl:text></xsl:attribute>
        <a class="skip" href="#content"><xsl:value-of select="$w[@id = 'skip']"/></a>
        <xsl:call-template name="status-bar"/>
        <xsl:apply-templates select="." mode="body"><xsl:with-param name="of" select="$of"/></xsl:apply-templates>
        <xsl:if test="$aids">
          <xsl:call-template name="aids"/>
          <script><xsl:value-of select="$script"/></script>
        </xsl:if>
      </body>
    </html>
  </xsl:template>

  <xsl:template name="stated">
    <xsl:param name="text"/>
    <xsl:choose>
      <xsl:when test="string($text) != ''"><xsl:value-of select="$text"/></xsl:when>
      <xsl:otherwise><xsl:value-of select="$w[@id = 'not-stated']"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <!-- Colours are written var(- -name) in the style sheets and filled in here:
       WeasyPrint 57 knows custom properties in few places. -->
  <xsl:template name="coloured">
    <xsl:param name="css"/>
    <xsl:choose>
      <xsl:when test="contains($css, 'var(--')">
        <xsl:variable name="rest" select="substring-after($css, 'var(--')"/>
        <xsl:variable name="name" select="substring-before($rest, ')')"/>
        <xsl:value-of select="substring-before($css, 'var(--')"/>
        <xsl:value-of select="$palette/colour[@id = $name]/@value"/>
        <xsl:call-template name="coloured"><xsl:with-param name="css" select="substring-after($rest, ')')"/></xsl:call-template>
      </xsl:when>
      <xsl:otherwise><xsl:value-of select="$css"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <!-- One class per fill: `.f3`. Edges differ by fill, so that a band survives
       where a browser drops backgrounds. -->
  <xsl:template name="fills">
    <xsl:for-each select="$palette/fill">
      <xsl:variable name="stroke" select="$palette/colour[@id = concat('stroke-', current()/@id)]/@value"/>
      <xsl:variable name="tint" select="$palette/colour[@id = concat('tint-', current()/@id)]/@value"/>
      <xsl:value-of select="concat('&#10;.f', @id, '{background-color:', $tint, ';border:', @edge, ' ', $stroke, ';')"/>
      <xsl:text>background-image:url("data:image/svg+xml,%3Csvg xmlns=%27http%3A%2F%2Fwww.w3.org%2F2000%2Fsvg%27 </xsl:text>
      <xsl:value-of select="concat('width=%27', @size, '%27 height=%27', @size, '%27%3E%3Cpath d=%27', @d, '%27 stroke=%27%23',
        substring($stroke, 2), '%27 stroke-width=%27', @width)"/>
      <xsl:text>%27 fill=%27none%27/%3E%3C/svg%3E")}</xsl:text>
    </xsl:for-each>
    <xsl:text>&#10;</xsl:text>
  </xsl:template>

  <!-- ===== the status mark: on every page, and it cannot be missed ===== -->

  <xsl:template name="status-counts">
    <xsl:for-each select="$root/@failed[. &gt; 0] | $root/@stops[. &gt; 0] | $root/@open[. &gt; 0] | $root/@waived[. &gt; 0]">
      <xsl:sort select="string-length(substring-before('failed stops open waived', name()))" data-type="number"/>
      <xsl:if test="position() &gt; 1"> · </xsl:if>
      <xsl:call-template name="count">
        <xsl:with-param name="id" select="concat('n-', name())"/>
        <xsl:with-param name="n" select="."/>
      </xsl:call-template>
    </xsl:for-each>
  </xsl:template>

  <xsl:template name="status-word">
    <xsl:choose>
      <xsl:when test="$incomplete"><xsl:value-of select="$w[@id = 'status-incomplete']"/></xsl:when>
      <xsl:otherwise><xsl:value-of select="$w[@id = 'status-draft']"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <xsl:template name="status-bar">
    <xsl:if test="$draft">
      <aside class="status-bar">
        <b><xsl:call-template name="status-word"/></b>
        <xsl:text> </xsl:text>
        <span><xsl:call-template name="status-counts"/></span>
      </aside>
    </xsl:if>
  </xsl:template>

  <!-- ===== bands and scores ===== -->

  <!-- The fill of a band: by rank, the worst band always the darkest. -->
  <xsl:template name="fill">
    <xsl:param name="band"/>
    <xsl:variable name="rank" select="key('band', $band)/@rank"/>
    <xsl:choose>
      <xsl:when test="$rank = $top-rank">5</xsl:when>
      <xsl:when test="$rank &gt; 4">4</xsl:when>
      <xsl:otherwise><xsl:value-of select="$rank"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <xsl:template name="band">
    <xsl:param name="band"/>
    <xsl:param name="score"/>
    <xsl:variable name="fill"><xsl:call-template name="fill"><xsl:with-param name="band" select="$band"/></xsl:call-template></xsl:variable>
    <xsl:variable name="b" select="key('band', $band)"/>
    <span class="band">
      <span class="sw f{$fill}" aria-hidden="true"><b><xsl:value-of select="$b/@letter"/></b></span>
      <xsl:text> </xsl:text>
      <span class="bw"><xsl:value-of select="$b/@word"/></span>
      <xsl:if test="$score"><xsl:text> </xsl:text><span class="bn"><xsl:value-of select="$score"/></span></xsl:if>
    </span>
  </xsl:template>

  <xsl:template match="score[@state]">
    <span class="stop-state {@state}">
      <xsl:value-of select="$w[@id = concat('state-', current()/@state)]"/>
    </span>
  </xsl:template>

  <xsl:template match="score">
    <xsl:choose>
      <xsl:when test="@worst-band">
        <xsl:call-template name="band">
          <xsl:with-param name="band" select="@worst-band"/>
        </xsl:call-template>
        <xsl:text> </xsl:text>
        <span class="mul"><b><xsl:value-of select="@worst"/></b><xsl:value-of select="concat(' = ', @worst-likelihood, ' × ', @worst-severity)"/></span>
      </xsl:when>
      <xsl:otherwise><span class="mul"><xsl:value-of select="$w[@id = 'best-none']"/></span></xsl:otherwise>
    </xsl:choose>
    <xsl:call-template name="best"/>
  </xsl:template>

  <!-- The best course, where it differs. -->
  <xsl:template name="best">
    <xsl:if test="@worst-band and (@best-none = 'yes' or @best != @worst or @best-likelihood != @worst-likelihood)">
      <xsl:text> </xsl:text>
      <span class="best">
        <xsl:value-of select="$w[@id = 'best-short']"/><xsl:text> </xsl:text>
        <xsl:choose>
          <xsl:when test="@best-none = 'yes'"><xsl:value-of select="$w[@id = 'best-none']"/></xsl:when>
          <xsl:otherwise><xsl:value-of select="concat(key('band', @best-band)/@word, ' ', @best, ' = ', @best-likelihood, ' × ', @best-severity)"/></xsl:otherwise>
        </xsl:choose>
      </span>

    </xsl:if>
  </xsl:template>

  <!-- The key of bands: on every sheet. -->
  <xsl:template name="band-key">
    <p class="band-key"><span class="label"><xsl:value-of select="$w[@id = 'key']"/></span>
      <xsl:for-each select="$bands">
        <xsl:sort select="@rank" data-type="number"/>
        <xsl:text> </xsl:text>
        <xsl:call-template name="band"><xsl:with-param name="band" select="@id"/></xsl:call-template>
      </xsl:for-each>
    </p>
  </xsl:template>

  <xsl:template name="head-cell">
    <xsl:param name="word"/>
    <xsl:param name="class"/>
    <th scope="col">
      <xsl:if test="$class"><xsl:attribute name="class"><xsl:value-of select="$class"/></xsl:attribute></xsl:if>
      <xsl:value-of select="$w[@id = $word]"/>
    </th>
  </xsl:template>

  <!-- Lines to sign on, for whom each is. -->
  <xsl:template name="signatures">
    <table class="sign">
      <caption class="away"><xsl:value-of select="$w[@id = 's-sign']"/></caption>
      <thead><tr>
        <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'sign-role'"/></xsl:call-template>
        <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'sign-name'"/></xsl:call-template>
        <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'sign-hand'"/></xsl:call-template>
        <xsl:call-template name="head-cell"><xsl:with-param name="word" select="'sign-time'"/></xsl:call-template>
      </tr></thead>
      <tbody>
        <xsl:for-each select="$w[@id = 'sign-task' or @id = 'sign-officer' or @id = 'sign-supervisor']">
          <tr><th scope="row"><xsl:value-of select="."/></th><td>&#160;</td><td>&#160;</td><td>&#160;</td></tr>
        </xsl:for-each>
      </tbody>
    </table>
  </xsl:template>

  <!-- Worst band of some hazards under one of the three scores, as a mark. -->
  <xsl:template name="worst-of">
    <xsl:param name="findings"/>
    <xsl:param name="as"/>
    <xsl:for-each select="$findings/score[@as = $as][@worst-band]">
      <xsl:sort select="key('band', @worst-band)/@rank" data-type="number" order="descending"/>
      <xsl:sort select="@worst" data-type="number" order="descending"/>
      <xsl:if test="position() = 1">
        <xsl:call-template name="band">
          <xsl:with-param name="band" select="@worst-band"/>
          <xsl:with-param name="score" select="@worst"/>
        </xsl:call-template>
      </xsl:if>
    </xsl:for-each>
  </xsl:template>

  <!-- The instrument of a duty, since when it holds, and whether its text has still to be read. -->
  <xsl:template name="law">
    <xsl:value-of select="@instrument"/><xsl:if test="@section">, <xsl:value-of select="@section"/></xsl:if>
    <xsl:if test="@in-force-from"><xsl:value-of select="concat('; ', $w[@id = 'in-force-from'], ' ', @in-force-from)"/></xsl:if>
    <xsl:if test="@in-force-to"><xsl:value-of select="concat(' ', $w[@id = 'in-force-to'], ' ', @in-force-to)"/></xsl:if>
    <xsl:if test="@check-the-text = 'yes'"><xsl:text> </xsl:text><span class="mark"><xsl:value-of select="$w[@id = 'check-mark']"/></span></xsl:if>
  </xsl:template>

</xsl:stylesheet>
