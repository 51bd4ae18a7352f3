-- Where a job stands is read from its own answers: by their estimate alone every answer of the shop was read at each issue, answer and closing.
DROP VIEW `job_states_now`;
--> statement-breakpoint
CREATE VIEW `job_states_now` AS SELECT j.`id` AS `job_id`, CASE
	WHEN EXISTS (SELECT 1 FROM `close_outs` c WHERE c.`job_id` = j.`id`) THEN 'closed'
	WHEN coalesce((SELECT e.`issued_at` IS NULL FROM `estimates` e WHERE e.`job_id` = j.`id` ORDER BY e.`revision` DESC LIMIT 1), 1) THEN 'draft'
	WHEN NOT EXISTS (SELECT 1 FROM `agreements` a WHERE a.`job_id` = j.`id` AND a.`estimate_id` = (SELECT e.`id` FROM `estimates` e WHERE e.`job_id` = j.`id` ORDER BY e.`revision` DESC LIMIT 1)) THEN 'with the owner'
	WHEN EXISTS (SELECT 1 FROM `agreements` a WHERE a.`job_id` = j.`id` AND a.`answer` <> 'declined' AND NOT EXISTS (SELECT 1 FROM `agreements` b WHERE b.`corrects` = a.`id`)) THEN 'agreed'
	ELSE 'declined' END AS `state`
FROM `jobs` j;
