-- Made when every assessment has been read (tables.sql): what is unusual in this book, the register,
-- and views for those who ask further.

CREATE VIEW exposure AS     -- who is in the water, how long, how deep: one row an assessment
SELECT a.id AS assessment,
  (SELECT count(DISTINCT day) FROM days d WHERE d.assessment = a.id) AS days,
  (SELECT min(day) FROM days d WHERE d.assessment = a.id) AS first_day,
  (SELECT max(day) FROM days d WHERE d.assessment = a.id) AS last_day,
  (SELECT count(*) FROM tasks t WHERE t.assessment = a.id) AS tasks,
  count(i.n) AS immersions,
  round(total(i.under_low), 1) AS under_low, round(total(i.under_high), 1) AS under_high,
  count(i.n) - count(i.under_high) AS under_unknown,  -- immersions without a time
  round(total(i.wet_low), 1) AS wet_low, round(total(i.wet_high), 1) AS wet_high,
  count(i.n) - count(i.wet_high) AS wet_unknown,
  round(max(i.depth_high), 1) AS deepest,
  count(i.n) - count(i.depth_high) AS depth_unknown
FROM assessments a LEFT JOIN immersions i ON i.assessment = a.id GROUP BY a.id;

CREATE VIEW lapses AS       -- what does not hold: as of --on, or not to the last day of the work
SELECT assessment, n, entity, what, until_day,
  CASE WHEN until_day < (SELECT on_day FROM book) THEN 'lapsed' ELSE 'before the last day' END AS state
FROM dated d
WHERE until_day < (SELECT on_day FROM book) OR until_day < (SELECT max(day) FROM days w WHERE w.assessment = d.assessment);

CREATE VIEW above AS        -- findings above the line, stops first, with what is in place
SELECT f.*, b.word AS band_word
FROM findings f LEFT JOIN bands b ON b.assessment = f.assessment AND b.id = f.in_place_band
WHERE (f.word = 'hazard' AND f.waived = 'no' AND b.above = 'yes') OR (f.word = 'stop' AND f.state <> 'gone')
ORDER BY f.assessment, f.word = 'stop' DESC, f.in_place DESC, f.id;

CREATE VIEW signed AS       -- the worst that can be said of the signatures of each
SELECT a.id AS assessment, count(s.n) AS signatures,
  CASE WHEN count(s.n) = 0 THEN 'unsigned'
       WHEN total(s.state = 'altered') > 0 THEN 'altered' WHEN total(s.state = 'unknown') > 0 THEN 'unknown'
       WHEN total(s.state = 'expired') > 0 THEN 'expired' WHEN total(s.state = 'untrusted') > 0 THEN 'untrusted'
       ELSE 'trusted' END AS state
FROM assessments a LEFT JOIN signatures s ON s.assessment = a.id GROUP BY a.id;

-- ---- what is unusual ----------------------------------------------------------------------------

CREATE TABLE pack_versions AS  -- each pack of the book, in each form it was met in
SELECT p.name, p.digest, p.files, count(*) AS assessments, sum(count(*)) OVER (PARTITION BY p.name) AS of_all,
  CASE WHEN s.name IS NULL THEN 'not shipped' WHEN s.digest <> p.digest THEN 'not as shipped' ELSE 'as shipped' END AS origin
FROM packs p LEFT JOIN shipped_packs s ON s.name = p.name
GROUP BY p.name, p.digest ORDER BY p.name, assessments DESC, p.digest;

CREATE TABLE unusual (      -- of an assessment: a pack, its matrix, the version of tankside
  assessment INTEGER NOT NULL REFERENCES assessments(id),
  kind TEXT NOT NULL,       -- pack, matrix, version
  name TEXT, digest TEXT,
  origin TEXT NOT NULL,     -- not shipped, not as shipped; or as shipped with the program that read; empty of a version
  among TEXT NOT NULL       -- unlike most: most of the book has another; else empty
) STRICT;

INSERT INTO unusual
SELECT p.assessment, 'pack', p.name, p.digest, v.origin, iif(2 * v.assessments < v.of_all, 'unlike most', '')
FROM packs p JOIN pack_versions v ON v.name = p.name AND v.digest = p.digest
WHERE v.origin <> 'as shipped' OR 2 * v.assessments < v.of_all ORDER BY p.assessment, p.name;

INSERT INTO unusual
SELECT id, 'matrix', matrix_file, matrix_sha256, origin, among FROM (
  SELECT a.*, iif(s.sha256 IS NULL, 'not shipped', 'as shipped') AS origin,
    iif(2 * count(*) OVER (PARTITION BY matrix_sha256) < count(*) OVER (), 'unlike most', '') AS among
  FROM assessments a LEFT JOIN shipped_matrices s ON s.sha256 = a.matrix_sha256)
WHERE origin <> 'as shipped' OR among <> '' ORDER BY id;

INSERT INTO unusual
SELECT id, 'version', tankside, NULL, '', among FROM (
  SELECT id, tankside, iif(2 * count(*) OVER (PARTITION BY tankside) < count(*) OVER (), 'unlike most', '') AS among
  FROM assessments)
WHERE among <> '' ORDER BY id;

-- ---- the register -------------------------------------------------------------------------------

CREATE TABLE register AS    -- one row an assessment: what is printed
SELECT a.id, a.file, a.title, a.reference, a.jurisdiction, a.revision, a.on_day, a.by_whom,
  (SELECT group_concat(site, ' ') FROM (SELECT DISTINCT site FROM days d WHERE d.assessment = a.id)) AS places,
  g.signatures, g.state AS signed, a.complete, a.failed, a.stops, a.above, a.duties_not_met, a.duties_open,
  a.open_facts, e.first_day, e.last_day, e.days, e.tasks, a.people, a.minors, a.ages_unknown, e.immersions,
  e.under_low, e.under_high, e.under_unknown, e.wet_low, e.wet_high, e.wet_unknown, e.deepest, e.depth_unknown,
  (SELECT count(*) FROM lapses l WHERE l.assessment = a.id AND l.state = 'lapsed') AS lapsed,
  (SELECT count(*) FROM lapses l WHERE l.assessment = a.id AND l.state <> 'lapsed') AS lapsing,
  a.facts, a.facts_with_evidence, (SELECT min(on_day) FROM evidence v WHERE v.assessment = a.id) AS oldest_evidence,
  (SELECT count(*) FROM waivers w WHERE w.assessment = a.id) AS waivers,
  (SELECT count(*) FROM unusual u WHERE u.assessment = a.id AND kind = 'pack') AS unusual_packs,
  a.matrix, (SELECT count(*) FROM unusual u WHERE u.assessment = a.id AND kind = 'matrix') AS unusual_matrix,
  a.tankside, (SELECT count(*) FROM unusual u WHERE u.assessment = a.id AND kind = 'version') AS unusual_version
FROM assessments a JOIN exposure e ON e.assessment = a.id JOIN signed g ON g.assessment = a.id ORDER BY a.id;

CREATE UNIQUE INDEX register_id ON register(id);
CREATE INDEX unusual_assessment ON unusual(assessment);

CREATE VIEW attention AS    -- why to look at an assessment: what is not what was signed first
SELECT rank, reason, assessment, n FROM (
  SELECT 1 AS rank, 'altered' AS reason, id AS assessment, signatures AS n FROM register WHERE signed IN ('altered', 'unknown')
  UNION ALL SELECT 2, 'incomplete', id, failed FROM register WHERE complete = 'no' OR failed > 0
  UNION ALL SELECT 3, 'stops', id, stops FROM register WHERE stops > 0
  UNION ALL SELECT 4, 'duties', id, duties_not_met FROM register WHERE duties_not_met > 0
  UNION ALL SELECT 5, 'above', id, above FROM register WHERE above > 0
  UNION ALL SELECT 6, 'lapsed', id, lapsed FROM register WHERE lapsed > 0
  UNION ALL SELECT 7, 'lapsing', id, lapsing FROM register WHERE lapsing > 0
  UNION ALL SELECT 8, 'waivers', id, waivers FROM register WHERE waivers > 0
  UNION ALL SELECT 9, 'signer', id, signatures FROM register WHERE signed IN ('expired', 'untrusted')
  UNION ALL SELECT 10, 'packs', id, unusual_packs FROM register WHERE unusual_packs > 0
  UNION ALL SELECT 11, 'matrix', id, 1 FROM register WHERE unusual_matrix > 0
  UNION ALL SELECT 12, 'version', id, 1 FROM register WHERE unusual_version > 0)
ORDER BY rank, assessment;

CREATE VIEW jurisdictions AS
SELECT jurisdiction, count(*) AS assessments, sum(stops) AS stops, sum(above) AS above, sum(duties_not_met) AS duties_not_met,
  sum(minors) AS minors, sum(under_high) AS under_high, max(deepest) AS deepest
FROM register GROUP BY jurisdiction ORDER BY jurisdiction;

CREATE VIEW rules_above AS  -- rules by how many assessments they put something above the line in
SELECT rule, title, count(DISTINCT assessment) AS assessments, count(*) AS findings, max(in_place) AS worst
FROM above WHERE discreet = 'no' GROUP BY rule ORDER BY assessments DESC, findings DESC, rule;

-- For example:
--
--   SELECT title, deepest, under_high FROM register WHERE deepest > 6 AND minors > 0;
--   SELECT file, what, until_day FROM lapses JOIN assessments ON id = assessment WHERE state = 'lapsed';
--   SELECT jurisdiction, rule, count(*) FROM duties JOIN assessments a ON a.id = assessment
--     WHERE in_place = 'not-met' GROUP BY 1, 2 ORDER BY 3 DESC;
--   SELECT name, digest, assessments FROM pack_versions WHERE origin = 'not as shipped';
