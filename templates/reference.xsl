<?xml version="1.0" encoding="UTF-8"?>
<!-- The reference page: topics with their rules and sources, rules, controls, facts, functions.
     From what `tankside vocabulary` writes as XML; one file, nothing from outside. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">
  <xsl:import href="common.xsl"/>
  <xsl:output method="html" encoding="UTF-8" indent="no"/>

  <xsl:key name="rule" match="/reference/rules/rule" use="@id"/>
  <xsl:key name="control" match="/reference/controls/control" use="@id"/>
  <xsl:key name="reads" match="/reference/rules/rule/reads" use="concat(@entity, ' ', @fact)"/>
  <xsl:key name="names" match="/reference/rules/rule/control" use="@ref"/>
  <xsl:key name="function" match="/reference/functions/function" use="@topic"/>

  <xsl:template match="/">
    <html lang="en-GB">
      <head>
        <title>What tankside looks at, and by which sources</title>
        <meta name="viewport" content="width=device-width, initial-scale=1"/>
        <meta name="generator" content="tankside {reference/@tankside}"/>
        <style>
          <xsl:call-template name="coloured"><xsl:with-param name="css" select="$css"/></xsl:call-template>
          .ref td, .ref th { overflow-wrap: anywhere; }
          .ref caption { padding-top: 3mm; }
          .ref { table-layout: fixed; }
          .ref .w15 { width: 15%; } .ref .w20 { width: 20%; } .ref .w25 { width: 25%; } .ref .w30 { width: 30%; }
          .ref li { margin-bottom: 0.6mm; }
          .rule { margin-top: 4mm; break-inside: avoid; }
          .rule h3 { margin: 0; }
        </style>
        <style media="all and (min-width: 0)">
          <xsl:call-template name="coloured"><xsl:with-param name="css" select="$browser-css"/></xsl:call-template>
        </style>
      </head>
      <body>
        <a class="skip" href="#content">To the content</a>
        <main id="content"><xsl:apply-templates select="reference"/></main>
      </body>
    </html>
  </xsl:template>

  <xsl:template match="reference">
    <h1>What tankside looks at, and by which sources</h1>
    <p class="lead">
      <xsl:value-of select="concat(count(topics/section/topic), ' topics, ', count(rules/rule), ' rules, ',
        count(controls/control), ' controls, ', count(entities/entity/fact), ' facts, ',
        count(functions/function), ' functions; tankside ', @tankside)"/>
    </p>
    <p class="caution">It computes and documents; a competent person decides. Local codes and licensed
      practice come first. A source marked “from memory” has not been seen: check the text.</p>
    <nav class="contents" aria-label="Contents">
      <ol>
        <li><a href="#topics">Topics, rules, sources</a></li>
        <li><a href="#rules">Rules</a></li>
        <li><a href="#controls">Controls</a></li>
        <li><a href="#facts">Facts</a></li>
        <li><a href="#functions">Functions</a></li>
      </ol>
    </nav>
    <h2 id="topics">Topics, rules, sources</h2>
    <p>What an assessment of a wet stage has to look at; which rules look at it; what each of them rests on.</p>
    <xsl:apply-templates select="topics/section"/>
    <h2 id="rules">Rules</h2>
    <p>What a rule looks at and which controls it names is what it does where nothing is known.
      “And more” stands where not all of its courses could be seen.</p>
    <xsl:apply-templates select="rules/rule"/>
    <h2 id="controls">Controls</h2>
    <xsl:call-template name="controls"/>
    <h2 id="facts">Facts</h2>
    <p>Each entity is an element of the dossier, each fact an attribute of it; in rules, hyphens become
      underscores. A fact that is left out or written “?” counts as anything in its plausible range.</p>
    <xsl:apply-templates select="entities/entity"/>
    <h2 id="functions">Functions</h2>
    <xsl:for-each select="functions/function[generate-id() = generate-id(key('function', @topic)[1])]">
      <xsl:call-template name="functions"/>
    </xsl:for-each>
  </xsl:template>

  <!-- ===== topics ===== -->

  <xsl:template match="section">
    <div class="scroll"><table class="ref">
      <caption><xsl:value-of select="@name"/></caption>
      <thead><tr><th scope="col" class="w25">Topic</th><th scope="col" class="w30">Rules</th><th scope="col">Sources</th></tr></thead>
      <xsl:apply-templates select="topic"/>
    </table></div>
  </xsl:template>

  <!-- One row a rule, so that a source stands beside the rule that rests on it. -->
  <xsl:template match="topic">
    <tbody>
      <xsl:for-each select="rule">
        <tr>
          <xsl:call-template name="topic-head"><xsl:with-param name="topic" select=".."/></xsl:call-template>
          <td><xsl:call-template name="rule-link"/></td>
          <td><ul><xsl:for-each select="key('rule', @ref)/source"><li><xsl:value-of select="@text"/></li></xsl:for-each></ul></td>
        </tr>
      </xsl:for-each>
      <xsl:if test="@says">
        <tr>
          <xsl:if test="rule"><td></td></xsl:if>
          <xsl:if test="not(rule)"><th scope="row"><xsl:value-of select="@name"/></th></xsl:if>
          <td>while the dossier is read</td>
          <td>the dossier against itself: “… <xsl:value-of select="@says"/> …”</td>
        </tr>
      </xsl:if>
    </tbody>
  </xsl:template>

  <xsl:template name="topic-head">
    <xsl:param name="topic"/>
    <xsl:choose>
      <xsl:when test="position() = 1"><th scope="row"><xsl:value-of select="$topic/@name"/></th></xsl:when>
      <xsl:otherwise><td></td></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <xsl:template name="rule-link">
    <xsl:variable name="rule" select="key('rule', @ref)"/>
    <a href="#rule-{@ref}"><xsl:value-of select="@ref"/></a><br/>
    <xsl:value-of select="$rule/@title"/>
  </xsl:template>

  <!-- ===== rules ===== -->

  <xsl:template match="rules/rule">
    <section class="rule" id="rule-{@id}">
      <h3><xsl:value-of select="concat(@id, ' — ', @title)"/></h3>
      <p>asked of each <a href="#entity-{@each}"><xsl:value-of select="@each"/></a>; <xsl:value-of select="@harm"/>;
        <xsl:value-of select="concat(@examples, ' examples; ')"/><code><xsl:value-of select="@at"/></code></p>
      <xsl:if test="@reasoning"><p><xsl:value-of select="@reasoning"/></p></xsl:if>
      <xsl:if test="reads">
        <p><span class="label">Looks at</span>
          <xsl:for-each select="reads">
            <xsl:if test="position() &gt; 1">, </xsl:if>
            <a href="#fact-{@entity}-{@fact}"><xsl:value-of select="concat(@entity, ' ', @fact)"/></a>
          </xsl:for-each>
          <xsl:if test="@more">, and more</xsl:if>
        </p>
      </xsl:if>
      <xsl:if test="control">
        <p><span class="label">Controls</span>
          <xsl:for-each select="control">
            <xsl:if test="position() &gt; 1">, </xsl:if>
            <a href="#control-{@ref}"><xsl:value-of select="@ref"/></a>
          </xsl:for-each>
        </p>
      </xsl:if>
      <p><span class="label">Sources</span>
        <xsl:for-each select="source">
          <xsl:if test="position() &gt; 1">; </xsl:if><xsl:value-of select="@text"/>
        </xsl:for-each>
      </p>
    </section>
  </xsl:template>

  <!-- ===== controls ===== -->

  <xsl:template name="controls">
    <div class="scroll"><table class="ref">
      <caption class="away">Controls</caption>
      <thead><tr><th scope="col" class="w20">Control</th><th scope="col">What the crew does; how it is checked</th>
        <th scope="col" class="w20">Effect</th><th scope="col" class="w20">Rules that name it</th></tr></thead>
      <tbody><xsl:apply-templates select="controls/control"/></tbody>
    </table></div>
  </xsl:template>

  <xsl:template match="controls/control">
    <tr id="control-{@id}">
      <th scope="row"><xsl:value-of select="@id"/><span class="of"><xsl:value-of select="@kind"/></span></th>
      <td><xsl:value-of select="@say"/><br/><span class="quiet"><xsl:value-of select="concat(@check, '; ', @often, '; ', @who)"/></span>
        <xsl:if test="@source"><br/><span class="quiet"><xsl:value-of select="@source"/></span></xsl:if></td>
      <td>
        <xsl:for-each select="change">
          <xsl:value-of select="concat(@entity, ' ', @fact, ' ', @how, ' ', @to)"/><br/>
        </xsl:for-each>
        <xsl:if test="@lowers-likelihood"><xsl:value-of select="concat('likelihood −', @lowers-likelihood)"/><br/></xsl:if>
        <xsl:if test="@lowers-severity"><xsl:value-of select="concat('severity −', @lowers-severity)"/></xsl:if>
      </td>
      <td><xsl:for-each select="key('names', @id)/..">
        <xsl:if test="position() &gt; 1">, </xsl:if><a href="#rule-{@id}"><xsl:value-of select="@id"/></a>
      </xsl:for-each></td>
    </tr>
  </xsl:template>

  <!-- ===== facts ===== -->

  <xsl:template match="entity">
    <div class="scroll"><table class="ref" id="entity-{@name}">
      <caption>
        <xsl:value-of select="concat(@name, ': ', @meaning)"/>
        <span class="of">
          <xsl:if test="@parent">stands in <xsl:value-of select="@parent"/><xsl:if test="@single">, once</xsl:if></xsl:if>
          <xsl:if test="not(@parent)">not written: made for each person and date</xsl:if>
          <xsl:if test="@plural">; in rules, a list: <xsl:value-of select="translate(@plural, '-', '_')"/></xsl:if>
        </span>
      </caption>
      <thead><tr><th scope="col" class="w15">Fact</th><th scope="col">Meaning</th><th scope="col" class="w20">What is written</th>
        <th scope="col" class="w15">Found by; ask</th><th scope="col" class="w25">Rules that look at it</th></tr></thead>
      <tbody><xsl:apply-templates select="fact"/></tbody>
    </table></div>
    <p class="small">In rules it leads to
      <xsl:for-each select="leads[not(@list)]">
        <xsl:if test="position() &gt; 1">, </xsl:if><code><xsl:value-of select="@to"/></code>
      </xsl:for-each>
      <xsl:if test="leads[@list]">; to lists
        <xsl:for-each select="leads[@list]">
          <xsl:if test="position() &gt; 1">, </xsl:if><code><xsl:value-of select="@to"/></code>
        </xsl:for-each>
      </xsl:if>
    </p>
  </xsl:template>

  <xsl:template match="entity/fact">
    <tr id="fact-{../@name}-{@name}">
      <th scope="row"><xsl:value-of select="@name"/></th>
      <td><xsl:value-of select="@meaning"/></td>
      <td>
        <xsl:call-template name="form"/>
        <xsl:if test="@optional">; may be left out</xsl:if>
        <xsl:if test="@sees"><xsl:value-of select="concat('; ', @sees)"/></xsl:if>
      </td>
      <td><xsl:call-template name="found"/></td>
      <td><xsl:for-each select="key('reads', concat(../@name, ' ', @name))/..">
        <xsl:if test="position() &gt; 1">, </xsl:if><a href="#rule-{@id}"><xsl:value-of select="@id"/></a>
      </xsl:for-each></td>
    </tr>
  </xsl:template>

  <xsl:template name="form">
    <xsl:choose>
      <xsl:when test="@type = 'quantity' or @type = 'count'">
        <xsl:value-of select="concat(@low, ' to ', @high)"/>
        <xsl:if test="@type = 'count'">, whole</xsl:if>
        <xsl:if test="@unit"><xsl:value-of select="concat(', in ', @unit)"/></xsl:if>
        <xsl:if test="@unit-us"><xsl:value-of select="concat(' or ', @unit-us)"/></xsl:if>
      </xsl:when>
      <xsl:when test="@type = 'flag'">yes or no</xsl:when>
      <xsl:when test="@type = 'choice' or @type = 'word'">one of: <xsl:value-of select="@choices"/></xsl:when>
      <xsl:when test="@type = 'set'">any of: <xsl:value-of select="@choices"/>; or none</xsl:when>
      <xsl:when test="@type = 'ref'">name of a <xsl:value-of select="@choices"/></xsl:when>
      <xsl:when test="@type = 'refs'">names of: <xsl:value-of select="@choices"/></xsl:when>
      <xsl:when test="@type = 'id'">its own name</xsl:when>
      <xsl:when test="@type = 'text'">words</xsl:when>
      <xsl:when test="@type = 'clock'">time of day</xsl:when>
      <xsl:otherwise>date</xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <xsl:template name="found">
    <xsl:choose>
      <xsl:when test="@derived">worked out: <xsl:value-of select="@measured"/></xsl:when>
      <xsl:when test="contains(' id ref refs day word text ', concat(' ', @type, ' '))"></xsl:when>
      <xsl:otherwise><xsl:value-of select="concat(@measured, '; ', @asked)"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <!-- ===== functions ===== -->

  <xsl:template name="functions">
    <div class="scroll"><table class="ref">
      <caption><xsl:value-of select="@topic"/></caption>
      <thead><tr><th scope="col" class="w20">Function</th><th scope="col" class="w25">Meaning and formula</th>
        <th scope="col">Arguments: valid range; how the result moves</th><th scope="col">Source; limits</th></tr></thead>
      <tbody><xsl:apply-templates select="key('function', @topic)"/></tbody>
    </table></div>
  </xsl:template>

  <xsl:template match="function">
    <tr id="function-{@name}">
      <th scope="row"><xsl:value-of select="@name"/><span class="of">
        <xsl:choose><xsl:when test="@unit">gives <xsl:value-of select="@unit"/></xsl:when><xsl:otherwise>gives a plain number</xsl:otherwise></xsl:choose>
      </span></th>
      <td><xsl:value-of select="@meaning"/><br/><code><xsl:value-of select="@formula"/></code></td>
      <td><ul><xsl:for-each select="argument">
        <li><xsl:value-of select="concat(@name, ': ', @valid, '; ', @direction)"/></li>
      </xsl:for-each></ul></td>
      <td><xsl:value-of select="@source"/><br/><span class="quiet"><xsl:value-of select="@limits"/></span></td>
    </tr>
  </xsl:template>
</xsl:stylesheet>
