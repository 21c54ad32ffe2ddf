<?xml version="1.0" encoding="UTF-8"?>
<!-- One finding or duty in plain text: everything that is behind it, for a terminal. Each line
     is a head, a tab and a text; whoever prints it folds the text under the head. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">
  <xsl:output method="text" encoding="UTF-8"/>

  <xsl:param name="finding"/>
  <xsl:variable name="w" select="document('words-en-GB.xml')/words/word"/>
  <xsl:variable name="root" select="/assessment"/>
  <xsl:variable name="it" select="/assessment/findings/finding[@id = $finding] | /assessment/duties/duty[@id = $finding]"/>
  <xsl:key name="subject" match="/assessment/subjects/subject" use="@path"/>
  <xsl:key name="fact" match="/assessment/subjects/subject/fact" use="concat(../@path, '/', @name)"/>
  <xsl:key name="elsewhere" match="/assessment/elsewhere/shifts" use="@id"/>
  <xsl:key name="band" match="/assessment/matrix/band" use="@id"/>

  <xsl:template match="/">
    <xsl:apply-templates select="$it"/>
  </xsl:template>

  <xsl:template name="line">
    <xsl:param name="head" select="'    '"/>
    <xsl:param name="text"/>
    <xsl:value-of select="concat($head, '&#9;', $text, '&#10;')"/>
  </xsl:template>

  <xsl:template name="part">
    <xsl:param name="id"/>
    <xsl:value-of select="concat('&#9;&#10;&#9;', $w[@id = $id], '&#10;')"/>
  </xsl:template>

  <xsl:template match="finding | duty">
    <xsl:call-template name="line">
      <xsl:with-param name="head" select="concat(@id, '  ')"/>
      <xsl:with-param name="text">
        <xsl:value-of select="@title"/><xsl:if test="@about">: <xsl:value-of select="@about"/></xsl:if>
      </xsl:with-param>
    </xsl:call-template>
    <xsl:call-template name="line"><xsl:with-param name="text" select="concat(@subject, ': ', @subject-label)"/></xsl:call-template>
    <xsl:if test="@who"><xsl:call-template name="line"><xsl:with-param name="text" select="concat(@who, '. ', @harm)"/></xsl:call-template></xsl:if>
    <xsl:call-template name="scores"/>
    <xsl:call-template name="why"/>
    <xsl:call-template name="facts"/>
    <xsl:call-template name="rule"/>
    <xsl:call-template name="controls"/>
    <xsl:call-template name="changes"/>
  </xsl:template>

  <!-- ===== scores ===== -->

  <xsl:template name="scores">
    <xsl:call-template name="part"><xsl:with-param name="id" select="'explain-scores'"/></xsl:call-template>
    <xsl:for-each select="score">
      <xsl:call-template name="line">
        <xsl:with-param name="head" select="concat('  ', $w[@id = concat('explain-', current()/@as)], ': ')"/>
        <xsl:with-param name="text">
          <xsl:choose>
            <xsl:when test="@state"><xsl:value-of select="$w[@id = concat('explain-', current()/@state)]"/></xsl:when>
            <xsl:otherwise>
              <xsl:call-template name="side"><xsl:with-param name="side" select="'worst'"/></xsl:call-template>
              <xsl:text>; </xsl:text>
              <xsl:call-template name="side"><xsl:with-param name="side" select="'best'"/></xsl:call-template>
            </xsl:otherwise>
          </xsl:choose>
        </xsl:with-param>
      </xsl:call-template>
    </xsl:for-each>
    <xsl:if test="@state">
      <xsl:call-template name="line">
        <xsl:with-param name="head" select="'  '"/>
        <xsl:with-param name="text">
          <xsl:value-of select="concat(@state, ': ', @instrument, ', ', @section)"/>
          <xsl:if test="@in-force-from"><xsl:value-of select="concat('; ', $w[@id = 'in-force-from'], ' ', @in-force-from)"/></xsl:if>
          <xsl:if test="@in-force-to"><xsl:value-of select="concat(' ', $w[@id = 'in-force-to'], ' ', @in-force-to)"/></xsl:if>
          <xsl:if test="@check-the-text = 'yes'"><xsl:value-of select="concat(' (', $w[@id = 'check-mark'], ')')"/></xsl:if>
        </xsl:with-param>
      </xsl:call-template>
      <xsl:if test="@evidence">
        <xsl:call-template name="line">
          <xsl:with-param name="head" select="'  '"/>
          <xsl:with-param name="text" select="concat($w[@id = 'shown-by'], ' ', @evidence)"/>
        </xsl:call-template>
      </xsl:if>
    </xsl:if>
    <xsl:if test="@unresolved = 'yes'"><xsl:call-template name="line"><xsl:with-param name="text" select="$w[@id = 'unresolved']"/></xsl:call-template></xsl:if>
    <xsl:if test="@too-open = 'yes'"><xsl:call-template name="line"><xsl:with-param name="text" select="$w[@id = 'too-open']"/></xsl:call-template></xsl:if>
    <xsl:if test="floored and not(@unresolved = 'yes')"><xsl:call-template name="line"><xsl:with-param name="text" select="$w[@id = 'explain-floored']"/></xsl:call-template></xsl:if>
    <xsl:call-template name="when"><xsl:with-param name="case" select="'worst'"/></xsl:call-template>
    <xsl:call-template name="when"><xsl:with-param name="case" select="'best'"/></xsl:call-template>
  </xsl:template>

  <xsl:template name="side">
    <xsl:param name="side"/>
    <xsl:variable name="l" select="@*[name() = concat($side, '-likelihood')]"/>
    <xsl:variable name="s" select="@*[name() = concat($side, '-severity')]"/>
    <xsl:value-of select="concat($w[@id = concat('explain-', $side)], ' ')"/>
    <xsl:choose>
      <xsl:when test="$l">
        <xsl:value-of select="concat($l, ' × ', $s, ' = ', @*[name() = $side], ', ', key('band', @*[name() = concat($side, '-band')])/@word)"/>
      </xsl:when>
      <xsl:otherwise><xsl:value-of select="$w[@id = 'explain-not-found']"/></xsl:otherwise>
    </xsl:choose>
  </xsl:template>

  <xsl:template name="when">
    <xsl:param name="case"/>
    <xsl:variable name="clauses" select="when[@case = $case]"/>
    <xsl:if test="$clauses">
      <xsl:call-template name="line">
        <xsl:with-param name="head" select="concat('  ', $w[@id = concat('explain-when-', $case, '-', $clauses[1]/@enough)], ' ')"/>
        <xsl:with-param name="text">
          <xsl:for-each select="$clauses">
            <xsl:if test="position() &gt; 1">, <xsl:value-of select="$w[@id = 'explain-and']"/><xsl:text> </xsl:text></xsl:if>
            <xsl:value-of select="@text"/>
          </xsl:for-each>
        </xsl:with-param>
      </xsl:call-template>
    </xsl:if>
  </xsl:template>

  <!-- ===== why ===== -->

  <xsl:template name="why">
    <xsl:call-template name="part"><xsl:with-param name="id" select="'explain-why'"/></xsl:call-template>
    <xsl:for-each select="because">
      <xsl:call-template name="line">
        <xsl:with-param name="head" select="concat('  ', $w[@id = concat('explain-', current()/@case)], ': ')"/>
        <xsl:with-param name="text" select="."/>
      </xsl:call-template>
    </xsl:for-each>
    <xsl:for-each select="value">
      <xsl:call-template name="line">
        <xsl:with-param name="head" select="concat('  ', @title, ' = ')"/><xsl:with-param name="text" select="@text"/>
      </xsl:call-template>
      <xsl:if test="@names"><xsl:call-template name="line"><xsl:with-param name="head" select="'      = '"/><xsl:with-param name="text" select="@names"/></xsl:call-template></xsl:if>
      <xsl:if test="@working"><xsl:call-template name="line"><xsl:with-param name="head" select="'      = '"/><xsl:with-param name="text" select="@working"/></xsl:call-template></xsl:if>
    </xsl:for-each>
    <xsl:for-each select="function">
      <xsl:call-template name="line">
        <xsl:with-param name="head" select="concat('  ', translate(@name, '_', ' '), ': ')"/>
        <xsl:with-param name="text" select="concat(@formula, '. ', @source, '. ', @limits)"/>
      </xsl:call-template>
    </xsl:for-each>
    <xsl:if test="condition">
      <xsl:call-template name="line"><xsl:with-param name="head" select="'  '"/><xsl:with-param name="text" select="$w[@id = 'explain-decisions']"/></xsl:call-template>
    </xsl:if>
    <xsl:for-each select="condition[@case = 'worst' or @settled = 'no']">
      <xsl:call-template name="line">
        <xsl:with-param name="head" select="concat('    ', $w[@id = concat('explain-', current()/@case)], ': ')"/>
        <xsl:with-param name="text">
          <xsl:value-of select="@text"/>
          <xsl:if test="@settled = 'no'"> (<xsl:value-of select="$w[@id = 'explain-open']"/>)</xsl:if>
        </xsl:with-param>
      </xsl:call-template>
    </xsl:for-each>
  </xsl:template>

  <xsl:template name="facts">
    <xsl:if test="rests">
      <xsl:call-template name="part"><xsl:with-param name="id" select="'explain-rests'"/></xsl:call-template>
      <xsl:for-each select="rests">
        <xsl:variable name="evidence" select="key('fact', @path)/evidence"/>
        <xsl:call-template name="line">
          <xsl:with-param name="head" select="concat('  ', @path, ' = ')"/>
          <xsl:with-param name="text">
            <xsl:value-of select="@text"/>
            <xsl:if test="@state != 'stated'">, <xsl:value-of select="$w[@id = concat('explain-', current()/@state)]"/></xsl:if>
            <xsl:for-each select="$evidence">; <xsl:value-of select="concat(@kind, ', ', @by, ', ', @on)"/><xsl:if test="@ref"> (<xsl:value-of select="@ref"/>)</xsl:if></xsl:for-each>
          </xsl:with-param>
        </xsl:call-template>
      </xsl:for-each>
    </xsl:if>
  </xsl:template>

  <xsl:template name="rule">
    <xsl:call-template name="part"><xsl:with-param name="id" select="'explain-rule'"/></xsl:call-template>
    <xsl:call-template name="line"><xsl:with-param name="head" select="'  '"/><xsl:with-param name="text" select="concat(@rule, ', ', @pack, '/', @file, ':', @line)"/></xsl:call-template>
    <xsl:if test="@reasoning"><xsl:call-template name="line"><xsl:with-param name="head" select="'  '"/><xsl:with-param name="text" select="@reasoning"/></xsl:call-template></xsl:if>
    <xsl:for-each select="source"><xsl:call-template name="line"><xsl:with-param name="head" select="'  '"/><xsl:with-param name="text" select="."/></xsl:call-template></xsl:for-each>
  </xsl:template>

  <xsl:template name="controls">
    <xsl:if test="control">
      <xsl:call-template name="part"><xsl:with-param name="id" select="'explain-controls'"/></xsl:call-template>
      <xsl:for-each select="control">
        <xsl:call-template name="line">
          <xsl:with-param name="head" select="concat('  ', $w[@id = concat('explain-', current()/@state)], ': ')"/>
          <xsl:with-param name="text">
            <xsl:value-of select="concat(@title, ' (', @ref, ', ', @kind, ')')"/>
            <xsl:if test="@changes">; <xsl:value-of select="@changes"/></xsl:if>
            <xsl:if test="@credited">; <xsl:value-of select="@credited"/></xsl:if>
          </xsl:with-param>
        </xsl:call-template>
      </xsl:for-each>
    </xsl:if>
  </xsl:template>

  <!-- ===== what would change it ===== -->

  <xsl:template name="changes">
    <xsl:if test="margin">
      <xsl:call-template name="part"><xsl:with-param name="id" select="'explain-margins'"/></xsl:call-template>
      <xsl:for-each select="margin">
        <xsl:call-template name="line"><xsl:with-param name="head" select="concat('  ', @title, ': ')"/><xsl:with-param name="text" select="@words"/></xsl:call-template>
      </xsl:for-each>
    </xsl:if>
    <xsl:if test="way">
      <xsl:call-template name="part"><xsl:with-param name="id" select="'explain-ways'"/></xsl:call-template>
      <xsl:apply-templates select="way"/>
    </xsl:if>
  </xsl:template>

  <xsl:template match="way">
    <xsl:variable name="does" select="key('elsewhere', @elsewhere)"/>
    <xsl:variable name="better" select="$does/better[not(@finding = current()/../@id)]"/>
    <xsl:call-template name="line">
      <xsl:with-param name="head" select="'  '"/>
      <xsl:with-param name="text">
        <xsl:choose>
          <xsl:when test="@kind = 'move'"><xsl:value-of select="@words"/></xsl:when>
          <xsl:otherwise>
            <xsl:for-each select="control">
              <xsl:if test="position() &gt; 1"><xsl:text> </xsl:text><xsl:value-of select="$w[@id = 'explain-with']"/><xsl:text> </xsl:text></xsl:if>
              <xsl:value-of select="concat(@title, ' (', @kind, ')')"/>
            </xsl:for-each>
          </xsl:otherwise>
        </xsl:choose>
        <xsl:value-of select="concat(' → ', @then)"/>
        <xsl:if test="$better"><xsl:value-of select="concat('; ', $w[@id = 'explain-better'], ' ', count($better))"/></xsl:if>
        <xsl:if test="$does/@not-tried"><xsl:value-of select="concat('; ', $w[@id = 'explain-not-tried'], ' ', $does/@not-tried)"/></xsl:if>
      </xsl:with-param>
    </xsl:call-template>
    <xsl:for-each select="$does/worse">
      <xsl:call-template name="line">
        <xsl:with-param name="head" select="concat('      ', $w[@id = 'explain-worse'], ': ')"/><xsl:with-param name="text" select="@words"/>
      </xsl:call-template>
    </xsl:for-each>
  </xsl:template>

</xsl:stylesheet>
