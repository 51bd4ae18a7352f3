-- Jobs in a state are found without looking at all of them: a row a job of what the view says, kept by triggers.
CREATE TABLE `job_states` (
	`job_id` text PRIMARY KEY NOT NULL,
	`state` text NOT NULL,
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE INDEX `job_states_state` ON `job_states` (`state`,`job_id`);--> statement-breakpoint
CREATE INDEX `job_states_open` ON `job_states` (`job_id`) WHERE state <> 'closed';
--> statement-breakpoint
CREATE VIEW `job_states_now` AS SELECT j.`id` AS `job_id`, CASE
	WHEN EXISTS (SELECT 1 FROM `close_outs` c WHERE c.`job_id` = j.`id`) THEN 'closed'
	WHEN coalesce((SELECT e.`issued_at` IS NULL FROM `estimates` e WHERE e.`job_id` = j.`id` ORDER BY e.`revision` DESC LIMIT 1), 1) THEN 'draft'
	WHEN NOT EXISTS (SELECT 1 FROM `agreements` a WHERE a.`estimate_id` = (SELECT e.`id` FROM `estimates` e WHERE e.`job_id` = j.`id` ORDER BY e.`revision` DESC LIMIT 1)) THEN 'with the owner'
	WHEN EXISTS (SELECT 1 FROM `agreements` a WHERE a.`job_id` = j.`id` AND a.`answer` <> 'declined' AND NOT EXISTS (SELECT 1 FROM `agreements` b WHERE b.`corrects` = a.`id`)) THEN 'agreed'
	ELSE 'declined' END AS `state`
FROM `jobs` j;
--> statement-breakpoint
CREATE TRIGGER `job_state_begun` AFTER INSERT ON `jobs`
BEGIN
	INSERT INTO `job_states` (`job_id`, `state`) VALUES (NEW.`id`, 'draft');
END;
--> statement-breakpoint
CREATE TRIGGER `job_state_drafted` AFTER INSERT ON `estimates`
BEGIN
	UPDATE `job_states` SET `state` = (SELECT n.`state` FROM `job_states_now` n WHERE n.`job_id` = `job_states`.`job_id`) WHERE `job_id` = NEW.`job_id`;
END;
--> statement-breakpoint
CREATE TRIGGER `job_state_issued` AFTER UPDATE OF `issued_at` ON `estimates`
BEGIN
	UPDATE `job_states` SET `state` = (SELECT n.`state` FROM `job_states_now` n WHERE n.`job_id` = `job_states`.`job_id`) WHERE `job_id` = NEW.`job_id`;
END;
--> statement-breakpoint
CREATE TRIGGER `job_state_withdrawn` AFTER DELETE ON `estimates`
BEGIN
	UPDATE `job_states` SET `state` = (SELECT n.`state` FROM `job_states_now` n WHERE n.`job_id` = `job_states`.`job_id`) WHERE `job_id` = OLD.`job_id`;
END;
--> statement-breakpoint
CREATE TRIGGER `job_state_answered` AFTER INSERT ON `agreements`
BEGIN
	UPDATE `job_states` SET `state` = (SELECT n.`state` FROM `job_states_now` n WHERE n.`job_id` = `job_states`.`job_id`) WHERE `job_id` = NEW.`job_id`;
END;
--> statement-breakpoint
CREATE TRIGGER `job_state_closed` AFTER INSERT ON `close_outs`
BEGIN
	UPDATE `job_states` SET `state` = (SELECT n.`state` FROM `job_states_now` n WHERE n.`job_id` = `job_states`.`job_id`) WHERE `job_id` = NEW.`job_id`;
END;
--> statement-breakpoint
INSERT INTO `job_states` (`job_id`, `state`) SELECT `job_id`, `state` FROM `job_states_now`;
