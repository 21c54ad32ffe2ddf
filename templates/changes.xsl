<?xml version="1.0" encoding="UTF-8"?>
<!-- What would change a finding: when it stands so, the nearest edges, the ways to
     bring it below the line with what they change elsewhere; and the fewest
     controls for a task. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">
  <xsl:key name="elsewhere" match="/assessment/elsewhere/shifts" use="@id"/>

  <!-- ===== when ===== -->

  <xsl:template name="whens">
    <xsl:call-template name="when">
      <xsl:with-param name="these" select="when[@case = 'worst']"/>
      <xsl:with-param name="enough" select="'when-worst'"/><xsl:with-param name="only" select="'when-worst-only'"/>
    </xsl:call-template>
    <xsl:call-template name="when">
      <xsl:with-param name="these" select="when[@case = 'best']"/>
      <xsl:with-param name="enough" select="'when-best'"/><xsl:with-param name="only" select="'when-best-only'"/>
    </xsl:call-template>
  </xsl:template>

  <!-- What a duty that is open needs. -->
  <xsl:template name="when-met">
    <xsl:call-template name="when">
      <xsl:with-param name="these" select="when[@case = 'best']"/>
      <xsl:with-param name="enough" select="'when-met'"/><xsl:with-param name="only" select="'when-met-only'"/>
    </xsl:call-template>
  </xsl:template>

  <xsl:template name="when">
    <xsl:param name="these"/>
    <xsl:param name="enough"/>
    <xsl:param name="only"/>
    <xsl:if test="$these">
      <p class="aside when"><span class="label">
        <xsl:choose>
          <xsl:when test="$these[1]/@enough = 'yes'"><xsl:value-of select="$w[@id = $enough]"/></xsl:when>
          <xsl:otherwise><xsl:value-of select="$w[@id = $only]"/></xsl:otherwise>
        </xsl:choose></span>
        <xsl:for-each select="$these">
          <xsl:if test="position() &gt; 1"><xsl:value-of select="concat(' ', $w[@id = 'and'], ' ')"/></xsl:if>
          <xsl:apply-templates select="@text" mode="said"/>
        </xsl:for-each>
      </p><xsl:text> </xsl:text>
    </xsl:if>
  </xsl:template>

  <!-- ===== margins ===== -->

  <xsl:template name="margins">
    <xsl:if test="margin">
      <ul class="ways">
        <xsl:for-each select="margin[position() &lt;= 3]">
          <li><xsl:if test="position() = 1"><span class="label"><xsl:value-of select="$w[@id = 'margins']"/></span></xsl:if>
            <xsl:apply-templates select="."/></li>
        </xsl:for-each>
      </ul>
    </xsl:if>
  </xsl:template>

  <!-- Below the line only what would take it above. -->
  <xsl:template name="nearest-above">
    <xsl:variable name="up" select="margin[@gets = 'worse'][@above = 'yes'][1]"/>
    <xsl:if test="$up">
      <xsl:text> </xsl:text>
      <p class="aside"><span class="label"><xsl:value-of select="$w[@id = 'margin-above']"/></span>
        <xsl:apply-templates select="$up"/></p>
    </xsl:if>
  </xsl:template>

  <xsl:template match="margin"><xsl:value-of select="@title"/><xsl:value-of select="$colon"/><xsl:apply-templates select="@words" mode="said"/></xsl:template>

  <!-- ===== ways below the line ===== -->

  <xsl:template name="ways">
    <xsl:call-template name="way-group">
      <xsl:with-param name="these" select="way[@kind = 'move']"/><xsl:with-param name="word" select="'ways-move'"/>
    </xsl:call-template>
    <xsl:call-template name="way-group">
      <xsl:with-param name="these" select="way[@kind = 'control']"/><xsl:with-param name="word" select="'ways-control'"/>
    </xsl:call-template>
    <xsl:call-template name="way-group">
      <xsl:with-param name="these" select="way[@kind = 'pair']"/><xsl:with-param name="word" select="'ways-pair'"/>
    </xsl:call-template>
  </xsl:template>

  <!-- The first two that make least worse elsewhere. -->
  <xsl:template name="way-group">
    <xsl:param name="these"/>
    <xsl:param name="word"/>
    <xsl:if test="$these">
      <ul class="ways">
        <xsl:for-each select="$these">
          <xsl:sort select="count(key('elsewhere', @elsewhere)/worse)" data-type="number"/>
          <xsl:if test="position() &lt;= 2">
            <li><xsl:if test="position() = 1"><span class="label"><xsl:value-of select="$w[@id = $word]"/></span></xsl:if>
              <xsl:apply-templates select="."/>
              <xsl:if test="position() = 2"><xsl:call-template name="more"><xsl:with-param name="n" select="count($these) - 2"/><xsl:with-param name="id" select="'n-ways'"/></xsl:call-template></xsl:if></li>
          </xsl:if>
        </xsl:for-each>
      </ul>
    </xsl:if>
  </xsl:template>

  <xsl:template name="more">
    <xsl:param name="n"/>
    <xsl:param name="id" select="'n-more'"/>
    <xsl:if test="$n &gt; 0">
      <xsl:if test="$id = 'n-more'"><xsl:text> </xsl:text></xsl:if><span class="quiet"><xsl:call-template name="count"><xsl:with-param name="id" select="$id"/><xsl:with-param name="n" select="$n"/></xsl:call-template></span>
    </xsl:if>
  </xsl:template>

  <xsl:template match="way">
    <xsl:choose>
      <xsl:when test="$withhold and @withheld"><xsl:value-of select="concat(@title, ' ', @withheld)"/></xsl:when>
      <xsl:when test="@words"><xsl:value-of select="@words"/></xsl:when>
      <xsl:otherwise><xsl:call-template name="named-controls"/></xsl:otherwise>
    </xsl:choose>
    <xsl:text> → </xsl:text><b><xsl:value-of select="@then"/></b>
    <xsl:variable name="does" select="key('elsewhere', @elsewhere)"/>
    <xsl:variable name="known" select="$does/better[@finding != current()/../@id]"/>
    <xsl:if test="$known">
      <xsl:value-of select="concat('; ', $w[@id = 'better'], ' ')"/>
      <xsl:for-each select="$known[position() &lt;= 4]">
        <xsl:if test="position() &gt; 1">, </xsl:if><a href="#{@finding}"><xsl:value-of select="@finding"/></a>
      </xsl:for-each>
      <xsl:call-template name="more"><xsl:with-param name="n" select="count($known) - 4"/></xsl:call-template>
    </xsl:if>
    <xsl:if test="$does/worse">
      <xsl:text> </xsl:text><span class="mark unknown"><xsl:value-of select="$w[@id = 'worse']"/></span><xsl:text> </xsl:text>
      <b><xsl:for-each select="$does/worse[position() &lt;= 3]"><xsl:if test="position() &gt; 1">; </xsl:if><xsl:value-of select="@words"/></xsl:for-each></b>
      <xsl:call-template name="more"><xsl:with-param name="n" select="count($does/worse) - 3"/></xsl:call-template>
    </xsl:if>
    <xsl:if test="$does/@not-tried"><xsl:text>; </xsl:text><xsl:call-template name="more"><xsl:with-param name="n" select="$does/@not-tried"/><xsl:with-param name="id" select="'n-not-tried'"/></xsl:call-template></xsl:if>
  </xsl:template>

  <xsl:template name="named-controls">
    <xsl:param name="room" select="count(control)"/>
    <xsl:for-each select="control[position() &lt;= $room]">
      <xsl:if test="position() &gt; 1"> + </xsl:if>
      <a href="#control-{@ref}"><xsl:value-of select="@title"/></a>
    </xsl:for-each>
    <xsl:call-template name="more"><xsl:with-param name="n" select="count(control) - $room"/></xsl:call-template>
  </xsl:template>

  <!-- ===== the fewest controls for each task ===== -->

  <xsl:template name="remedies">
    <xsl:if test="remedies/remedy">
      <h3><xsl:value-of select="$w[@id = 'remedies']"/></h3>
      <p class="lead"><xsl:value-of select="$w[@id = 'remedies-lead']"/></p>
      <ul class="points remedies">
        <xsl:for-each select="remedies/remedy">
          <li><b><xsl:value-of select="@task-label"/><xsl:if test="not(@task-label)"><xsl:value-of select="@task"/></xsl:if></b><xsl:value-of select="$colon"/>
            <xsl:if test="control"><xsl:call-template name="named-controls"><xsl:with-param name="room" select="12"/></xsl:call-template></xsl:if>
            <xsl:if test="@none = 'yes'">
              <xsl:if test="control">. </xsl:if><xsl:value-of select="$w[@id = 'remedy-none']"/>
            </xsl:if>
            <xsl:for-each select="left[position() &lt;= 8]">
              <xsl:value-of select="concat(substring(', ', 1, 2 * (position() &gt; 1)), ' ')"/>
              <a href="#{@finding}"><xsl:value-of select="@finding"/></a><xsl:value-of select="concat(' ', @title)"/>
            </xsl:for-each>
            <xsl:call-template name="more"><xsl:with-param name="n" select="count(left) - 8"/></xsl:call-template>
          </li>
        </xsl:for-each>
      </ul>
    </xsl:if>
  </xsl:template>
</xsl:stylesheet>
