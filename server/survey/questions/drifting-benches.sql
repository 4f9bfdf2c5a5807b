-- Which bench drifts: reads more and more, or less and less, for the same revision?
WITH placed AS (
  SELECT bench, bench_name, revision_id, epoch_us(started_at) / 86.4e9 / 365.25 AS years, value
  FROM counted
  WHERE revision_id IS NOT NULL AND started_at IS NOT NULL),
deviations AS (
  SELECT bench, bench_name, revision_id, years - favg(years) OVER same AS x, value / favg(value) OVER same - 1 AS y
  FROM placed
  WINDOW same AS (PARTITION BY bench, revision_id)),
sums AS (
  SELECT bench, min(bench_name) AS bench_name, count(*) AS burns, count(DISTINCT revision_id) AS revisions, fsum(x * x) AS xx,
    fsum(x * y) AS xy, fsum(y * y) AS yy
  FROM deviations
  GROUP BY bench)
SELECT bench_name, bench, burns, revisions, xy / xx AS drift_per_year, burns - revisions - 1 AS degrees_of_freedom,
  sqrt(greatest(yy - xy * xy / xx, 0) / (burns - revisions - 1) / xx) AS standard_error_per_year
FROM sums
WHERE burns - revisions - 1 > 0 AND xx > 0
ORDER BY bench_name, bench;
