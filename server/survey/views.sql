-- What the questions read. Set beforehand: folder, result, simulated (true or false) and start ('cold' or 'hot').
CREATE VIEW burns AS
FROM read_parquet(getvariable('folder') || '/burns/**/*.parquet', union_by_name = true,
  hive_partitioning = true, hive_types = {'bench': VARCHAR, 'year': INTEGER})
-- Two benches that published one burn at once: the lower identifier has it.
QUALIFY row_number() OVER (PARTITION BY burn ORDER BY bench) = 1;

CREATE VIEW results AS
FROM read_parquet(getvariable('folder') || '/results/**/*.parquet', union_by_name = true,
  hive_partitioning = true, hive_types = {'bench': VARCHAR, 'year': INTEGER});

-- Results of burns that count: complete, by the method that all benches have in common, measured or simulated and begun cold or hot
-- as asked for, since neither is ever pooled with the other.
CREATE VIEW counted_results AS
SELECT burns.bench, burns.bench_name, burns.burn, burns.started_at, burns.stove_id, burns.stove, burns.revision_id, burns.revision,
  burns.revision_parent_id, burns.wood_lot_id, burns.wood_lot, results.result, results.method_version, results.value, results.unit,
  results.interval_low, results.interval_high
FROM burns JOIN results USING (bench, burn)
WHERE burns.status = 'complete' AND burns.simulated = getvariable('simulated')
  AND coalesce(burns.start_kind, 'cold') = getvariable('start')
  AND results.method = 'bench-1' AND results.value IS NOT NULL;

-- The one result that is asked about.
CREATE VIEW counted AS
FROM counted_results WHERE result = getvariable('result');
