-- How well does a bench repeat itself, and how well do benches agree (ISO 5725-2)?
WITH by_bench AS (
  SELECT stove_id, revision_id, bench, min(stove) AS stove, min(revision) AS revision, count(*) AS n, favg(value) AS mean,
    coalesce(var_samp(value), 0) AS variance
  FROM counted
  WHERE revision_id IS NOT NULL
  GROUP BY stove_id, revision_id, bench),
placed AS (
  SELECT *, fsum(n * mean) OVER same / sum(n) OVER same AS grand_mean
  FROM by_bench
  WINDOW same AS (PARTITION BY stove_id, revision_id)),
-- 7.4 of the standard: benches are its laboratories, revisions its levels
variances AS (
  SELECT stove_id, revision_id, min(stove) AS stove, min(revision) AS revision, count(*) AS benches, sum(n)::INTEGER AS burns,
    min(grand_mean) AS mean, fsum((n - 1) * variance) / (sum(n) - count(*)) AS repeatability_variance,
    fsum(n * (mean - grand_mean) ^ 2) / (count(*) - 1) AS variance_between,
    (sum(n) - fsum(n * n) / sum(n)) / (count(*) - 1) AS burns_a_bench
  FROM placed
  GROUP BY stove_id, revision_id
  HAVING count(*) > 1 AND sum(n) > count(*)),
parts AS (
  SELECT *, greatest(variance_between - repeatability_variance, 0) / burns_a_bench AS bench_variance
  FROM variances)
SELECT stove, revision, benches, burns, mean, sqrt(repeatability_variance) AS repeatability_deviation,
  sqrt(bench_variance) AS between_benches, sqrt(repeatability_variance + bench_variance) AS reproducibility_deviation,
  2.8 * sqrt(repeatability_variance) AS repeatability_limit,
  2.8 * sqrt(repeatability_variance + bench_variance) AS reproducibility_limit
FROM parts
ORDER BY stove, revision, revision_id;
