ALTER TABLE `agreements` ADD `deposit` integer;--> statement-breakpoint
ALTER TABLE `outcomes` ADD `declined` integer DEFAULT false NOT NULL;
--> statement-breakpoint
-- A job that was declined is closed on the answer that declined it, and says so; no other is.
DROP TRIGGER `close_outs_match`;
--> statement-breakpoint
CREATE TRIGGER `close_outs_match` BEFORE INSERT ON `close_outs` WHEN NOT EXISTS (
	SELECT 1 FROM `agreements` WHERE `id` = NEW.`agreement_id` AND `job_id` = NEW.`job_id`
		AND (`answer` = 'declined') = (NEW.`basis` ->> '$.terms.basis' = 'declined'))
	OR (NEW.`corrects` IS NOT NULL AND NOT EXISTS (SELECT 1 FROM `close_outs` WHERE `id` = NEW.`corrects` AND `job_id` = NEW.`job_id`))
BEGIN SELECT RAISE(ABORT, 'a close-out rests on an answer of its job'); END;
