-- What does each revision need over all benches, and how far are the benches from each other?
WITH by_bench AS (
  SELECT stove_id, revision_id, bench, min(stove) AS stove, min(revision) AS revision, count(*) AS burns, favg(value) AS mean,
    var_samp(value) AS variance
  FROM counted
  WHERE revision_id IS NOT NULL
  GROUP BY stove_id, revision_id, bench)
SELECT min(stove) AS stove, min(revision) AS revision, count(*) AS benches, sum(burns)::INTEGER AS burns, favg(mean) AS mean_of_benches,
  stddev_samp(mean) AS between_benches, sqrt(fsum((burns - 1) * variance) / nullif(sum(burns) - count(*), 0)) AS within_benches,
  min(mean) AS lowest_bench, max(mean) AS highest_bench
FROM by_bench
GROUP BY stove_id, revision_id
ORDER BY stove, revision, revision_id;
