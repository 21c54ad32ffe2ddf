<?xml version="1.0" encoding="UTF-8"?>
<!-- The fixed words of the language a document is in: words-<language>.xml, and where it lacks
     one, that of words-en-GB.xml. What an assessment itself says was put into the language
     before (language.xsl), all but words by which the sheets choose: those go through `term`. -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform">

  <xsl:variable name="language">
    <xsl:value-of select="/assessment/@language"/>
    <xsl:if test="not(/assessment/@language)">en-GB</xsl:if>
  </xsl:variable>
  <xsl:variable name="words" select="document(concat('words-', $language, '.xml'))/words"/>
  <xsl:variable name="other-words" select="document('words-en-GB.xml')/words[$language != @lang]"/>
  <xsl:variable name="w" select="$words/word | $words/count
    | ($other-words/word | $other-words/count)[not(@id = ($words/word/@id | $words/count/@id))]"/>
  <xsl:variable name="all-sections" select="$words/section | $other-words/section[not(@id = $words/section/@id)]"/>
  <xsl:variable name="columns" select="$words/column | $other-words/column[not(@id = $words/column/@id)]"/>
  <xsl:variable name="files" select="$words/file | $other-words/file[not(@name = $words/file/@name)]"/>

  <!-- Between a head and what it is about. -->
  <xsl:variable name="colon" select="concat($words/@before-colon, ': ')"/>

  <!-- The same word, found by key: for who asks thousands of times. -->
  <xsl:key name="word" match="word" use="@id"/>
  <xsl:template name="word">
    <xsl:param name="id"/>
    <xsl:variable name="own"><xsl:for-each select="$words"><xsl:value-of select="key('word', $id)"/></xsl:for-each></xsl:variable>
    <xsl:value-of select="$own"/>
    <xsl:if test="$own = ''"><xsl:for-each select="$other-words"><xsl:value-of select="key('word', $id)"/></xsl:for-each></xsl:if>
  </xsl:template>

  <!-- Texts of rules, controls and matrices by what they are in English: a text that was changed
       is printed as it stands until its translation is too. -->
  <xsl:variable name="terms" select="document($words/terms/@file)"/>
  <xsl:key name="term" match="term" use="@of"/>

  <xsl:template name="term">
    <xsl:param name="text"/>
    <xsl:variable name="known"><xsl:call-template name="known"><xsl:with-param name="text" select="$text"/></xsl:call-template></xsl:variable>
    <xsl:value-of select="$known"/>
    <xsl:if test="$known = ''"><xsl:value-of select="$text"/></xsl:if>
  </xsl:template>

  <!-- Nothing where there is no translation. -->
  <xsl:template name="known">
    <xsl:param name="text"/>
    <xsl:for-each select="$terms"><xsl:value-of select="key('term', $text)"/></xsl:for-each>
  </xsl:template>

  <xsl:template match="@*" mode="term">
    <xsl:call-template name="term"><xsl:with-param name="text" select="string(.)"/></xsl:call-template>
  </xsl:template>
</xsl:stylesheet>
