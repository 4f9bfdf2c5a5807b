-- How often did the declared 95 % intervals allow for the difference to the next burn of the same revision on the same bench?
WITH placed AS (
  SELECT result, bench, revision_id, value, (interval_high - interval_low) / 2 AS half,
    row_number() OVER (PARTITION BY result, bench, revision_id ORDER BY started_at NULLS LAST, burn) AS place
  FROM counted_results
  WHERE revision_id IS NOT NULL AND interval_high > interval_low),
-- Each burn in one pair only, so that pairs are independent. E_n as in ISO 13528.
pairs AS (
  SELECT first.result, (second.value - first.value) / sqrt(first.half ^ 2 + second.half ^ 2) AS e_n
  FROM placed first JOIN placed second
    ON second.result = first.result AND second.bench = first.bench AND second.revision_id = first.revision_id
      AND second.place = first.place + 1
  WHERE first.place % 2 = 1)
SELECT result, count(*) AS pairs, count(*) FILTER (abs(e_n) <= 1) AS held, count(*) FILTER (abs(e_n) <= 1) / count(*) AS share_held,
  1.96 * sqrt(favg(e_n ^ 2)) AS scatter_over_declared
FROM pairs
GROUP BY result
ORDER BY result = getvariable('result') DESC, result;
