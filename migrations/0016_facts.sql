-- Facts of a unit and of its visit have one home: what only an open draft said of them is brought there. Issued revisions keep theirs.
UPDATE `units` SET
	`serial` = coalesce(`serial`, json_extract(d.`said`, '$.serial')),
	`declared_value` = coalesce(`declared_value`, CASE WHEN json_type(d.`said`, '$.declaredValue') = 'integer' THEN json_extract(d.`said`, '$.declaredValue') END),
	`hazards` = coalesce(`hazards`, json_extract(d.`said`, '$.hazards'))
FROM (SELECT j.`unit_id`, json_extract(e.`input`, '$.unit') AS `said`, max(j.`id`) FROM `estimates` e JOIN `jobs` j ON j.`id` = e.`job_id`
	WHERE e.`issued_at` IS NULL GROUP BY j.`unit_id`) AS d
WHERE d.`unit_id` = `units`.`id`;
--> statement-breakpoint
UPDATE `jobs` SET
	`reported` = coalesce(`reported`, json_extract(d.`said`, '$.reported')),
	`condition` = coalesce(`condition`, json_extract(d.`said`, '$.condition')),
	`accessories` = coalesce(`accessories`, json_extract(d.`said`, '$.accessories'))
FROM (SELECT `job_id`, json_extract(`input`, '$.unit') AS `said` FROM `estimates` WHERE `issued_at` IS NULL) AS d
WHERE d.`job_id` = `jobs`.`id`;
--> statement-breakpoint
-- A draft that was a mistake is taken back, and the next one takes its number: its event tells of it. What was issued stays.
DROP TRIGGER `estimates_are_kept`;
--> statement-breakpoint
CREATE TRIGGER `estimates_are_kept` BEFORE DELETE ON `estimates` WHEN OLD.`issued_at` IS NOT NULL
BEGIN SELECT RAISE(ABORT, 'an issued estimate is kept for ever'); END;
--> statement-breakpoint
CREATE TRIGGER `search_estimate_removed` AFTER DELETE ON `estimates`
BEGIN
	UPDATE `search_entries` SET (`who`, `unit`, `told`, `codes`) =
		(SELECT `who`, `unit`, `told`, `codes` FROM `search_texts` t WHERE t.`job_id` = `search_entries`.`job_id`)
		WHERE `job_id` = OLD.`job_id`;
END;
