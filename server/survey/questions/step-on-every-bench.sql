-- Did each revision need less than the one it was made from, on every bench that burnt both?
WITH by_bench AS (
  SELECT bench, revision_id, min(bench_name) AS bench_name, min(stove) AS stove, min(revision) AS revision,
    min(revision_parent_id) AS parent_id, count(*) AS burns, favg(value) AS mean, var_samp(value) / count(*) AS variance_of_mean
  FROM counted
  WHERE revision_id IS NOT NULL
  GROUP BY bench, revision_id)
SELECT later.stove, earlier.revision AS from_revision, later.revision AS to_revision, later.bench_name, later.bench,
  earlier.burns AS burns_before, later.burns AS burns_after, earlier.mean AS mean_before, later.mean AS mean_after,
  later.mean / earlier.mean - 1 AS relative_difference,
  sqrt(earlier.variance_of_mean + later.variance_of_mean) / earlier.mean AS relative_standard_error,
  -- Welch and Satterthwaite
  (earlier.variance_of_mean + later.variance_of_mean) ^ 2
    / nullif(earlier.variance_of_mean ^ 2 / (earlier.burns - 1) + later.variance_of_mean ^ 2 / (later.burns - 1), 0) AS degrees_of_freedom
FROM by_bench later JOIN by_bench earlier ON earlier.bench = later.bench AND earlier.revision_id = later.parent_id
ORDER BY stove, from_revision, to_revision, later.bench_name, later.bench;
