-- Whose burns lie in the folder, and how many of them count?
SELECT min(bench_name) AS bench_name, bench, count(*) AS burns, count(*) FILTER (simulated) AS simulated_burns,
  count(counted.burn) AS counted_burns, string_agg(DISTINCT counted.method_version, ', ' ORDER BY counted.method_version) AS method_versions,
  min(burns.started_at) AS first_start, max(burns.started_at) AS last_start
FROM burns LEFT JOIN (SELECT burn, method_version FROM counted) counted USING (burn)
GROUP BY bench
ORDER BY bench_name, bench;
