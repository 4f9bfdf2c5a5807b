-- How did several stoves do with the same fuel lot?
SELECT min(wood_lot) AS wood_lot, min(stove) AS stove, min(revision) AS revision, count(DISTINCT bench) AS benches, count(*) AS burns,
  favg(value) AS mean, stddev_samp(value) AS standard_deviation
FROM counted
WHERE stove_id IS NOT NULL AND wood_lot_id IN (
  SELECT wood_lot_id FROM counted WHERE stove_id IS NOT NULL GROUP BY wood_lot_id HAVING count(DISTINCT stove_id) > 1)
GROUP BY wood_lot_id, stove_id, revision_id
ORDER BY wood_lot, wood_lot_id, stove, revision, revision_id;
