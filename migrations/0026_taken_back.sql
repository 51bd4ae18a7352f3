-- A unit may be taken back before anything was issued: such a close-out rests on no answer. The alteration is libSQL's own.
ALTER TABLE `close_outs` ALTER COLUMN `agreement_id` TO `agreement_id` text REFERENCES `agreements`(`id`);
--> statement-breakpoint
DROP TRIGGER `close_outs_match`;
--> statement-breakpoint
CREATE TRIGGER `close_outs_match` BEFORE INSERT ON `close_outs` WHEN (NEW.`agreement_id` IS NULL AND (
		NEW.`basis` ->> '$.terms.basis' <> 'taken back' OR EXISTS (SELECT 1 FROM `estimates` WHERE `job_id` = NEW.`job_id` AND `issued_at` IS NOT NULL)))
	OR (NEW.`agreement_id` IS NOT NULL AND NOT EXISTS (
		SELECT 1 FROM `agreements` WHERE `id` = NEW.`agreement_id` AND `job_id` = NEW.`job_id`
			AND (`answer` = 'declined') = (NEW.`basis` ->> '$.terms.basis' = 'declined') AND NEW.`basis` ->> '$.terms.basis' <> 'taken back'))
	OR (NEW.`corrects` IS NOT NULL AND NOT EXISTS (SELECT 1 FROM `close_outs` WHERE `id` = NEW.`corrects` AND `job_id` = NEW.`job_id`))
BEGIN SELECT RAISE(ABORT, 'a close-out rests on an answer of its job, or on nothing issued'); END;
