CREATE TABLE `agreements` (
	`id` text PRIMARY KEY NOT NULL,
	`job_id` text NOT NULL,
	`at` text NOT NULL,
	`estimate_id` text NOT NULL,
	`revision` integer NOT NULL,
	`content_hash` text NOT NULL,
	`pdf_hash` text NOT NULL,
	`answer` text NOT NULL,
	`answered_by` text NOT NULL,
	`channel` text NOT NULL,
	`wording` text NOT NULL,
	`zone` text NOT NULL,
	`currency` text NOT NULL,
	`chosen` text NOT NULL,
	`struck` text NOT NULL,
	`amount` integer,
	`ceiling` integer,
	`link_id` text,
	`delivered_to` text,
	`address` text,
	`agent` text,
	`recorded_by` text,
	`spoken` text,
	`writing` text,
	`corrects` text,
	`reason` text,
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`estimate_id`) REFERENCES `estimates`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`link_id`) REFERENCES `owner_links`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`corrects`) REFERENCES `agreements`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `agreements_answer` ON `agreements` (`estimate_id`) WHERE "agreements"."corrects" is null;--> statement-breakpoint
CREATE UNIQUE INDEX `agreements_correction` ON `agreements` (`corrects`);--> statement-breakpoint
CREATE INDEX `agreements_job` ON `agreements` (`job_id`);--> statement-breakpoint
CREATE TABLE `issues` (
	`id` text PRIMARY KEY NOT NULL,
	`job_id` text NOT NULL,
	`at` text NOT NULL,
	`revision` integer NOT NULL,
	`issued_by` text NOT NULL,
	`content_hash` text NOT NULL,
	`pdf_hash` text NOT NULL,
	`head_number` integer NOT NULL,
	`head_hash` text NOT NULL,
	`pdf` blob NOT NULL,
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `issues_revision` ON `issues` (`job_id`,`revision`);--> statement-breakpoint
CREATE UNIQUE INDEX `issues_content` ON `issues` (`id`,`content_hash`,`pdf_hash`);--> statement-breakpoint
CREATE TABLE `overrides` (
	`id` text PRIMARY KEY NOT NULL,
	`job_id` text NOT NULL,
	`at` text NOT NULL,
	`override_of` text NOT NULL,
	`decided_by` text NOT NULL,
	`reason` text NOT NULL,
	`refusal` text NOT NULL,
	`over_by` integer,
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE INDEX `overrides_job` ON `overrides` (`job_id`);--> statement-breakpoint
CREATE TABLE `owner_entries` (
	`token_hash` text PRIMARY KEY NOT NULL,
	`link_id` text NOT NULL,
	`at` text NOT NULL,
	`came_by` text NOT NULL,
	FOREIGN KEY (`link_id`) REFERENCES `owner_links`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE TABLE `owner_links` (
	`id` text PRIMARY KEY NOT NULL,
	`job_id` text NOT NULL,
	`at` text NOT NULL,
	`estimate_id` text NOT NULL,
	`made_by` text NOT NULL,
	`delivered_to` text NOT NULL,
	`expires_at` text NOT NULL,
	`secret_hash` text NOT NULL,
	`code_salt` text NOT NULL,
	`code_hash` text NOT NULL,
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`estimate_id`) REFERENCES `estimates`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE INDEX `owner_links_job` ON `owner_links` (`job_id`);--> statement-breakpoint
CREATE TABLE `link_withdrawals` (
	`id` text PRIMARY KEY NOT NULL,
	`job_id` text NOT NULL,
	`at` text NOT NULL,
	`link_id` text NOT NULL,
	`withdrawn_by` text NOT NULL,
	`reason` text,
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`link_id`) REFERENCES `owner_links`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `link_withdrawals_link` ON `link_withdrawals` (`link_id`);--> statement-breakpoint
CREATE TABLE `question_replies` (
	`id` text PRIMARY KEY NOT NULL,
	`job_id` text NOT NULL,
	`at` text NOT NULL,
	`question_id` text NOT NULL,
	`replied_by` text NOT NULL,
	`text` text NOT NULL,
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`question_id`) REFERENCES `questions`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE INDEX `question_replies_question` ON `question_replies` (`question_id`);--> statement-breakpoint
CREATE TABLE `questions` (
	`id` text PRIMARY KEY NOT NULL,
	`job_id` text NOT NULL,
	`at` text NOT NULL,
	`estimate_id` text NOT NULL,
	`link_id` text NOT NULL,
	`text` text NOT NULL,
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`estimate_id`) REFERENCES `estimates`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`link_id`) REFERENCES `owner_links`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE INDEX `questions_job` ON `questions` (`job_id`);--> statement-breakpoint
CREATE TABLE `events` (
	`job_id` text NOT NULL,
	`number` integer NOT NULL,
	`at` text NOT NULL,
	`what` text NOT NULL,
	`content` text NOT NULL,
	`hash` text NOT NULL,
	PRIMARY KEY(`job_id`, `number`),
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE TABLE `work_log` (
	`id` text PRIMARY KEY NOT NULL,
	`job_id` text NOT NULL,
	`at` text NOT NULL,
	`item` text,
	`minutes` real,
	`labour_class` text,
	`parts` integer,
	`person` text NOT NULL,
	`worked_on` text NOT NULL,
	`note` text,
	`override_id` text,
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`override_id`) REFERENCES `overrides`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE INDEX `work_log_job` ON `work_log` (`job_id`);--> statement-breakpoint
CREATE UNIQUE INDEX `estimates_open_draft` ON `estimates` (`job_id`) WHERE issued_at is null;
--> statement-breakpoint
CREATE TRIGGER `issues_stay` BEFORE UPDATE ON `issues`
BEGIN SELECT RAISE(ABORT, 'an issue on record never changes'); END;
--> statement-breakpoint
CREATE TRIGGER `issues_are_kept` BEFORE DELETE ON `issues`
BEGIN SELECT RAISE(ABORT, 'an issue on record is never deleted'); END;
--> statement-breakpoint
CREATE TRIGGER `issues_are_not_replaced` BEFORE INSERT ON `issues` WHEN EXISTS (SELECT 1 FROM `issues` WHERE `id` = NEW.`id`)
BEGIN SELECT RAISE(ABORT, 'UNIQUE: an issue with this id is on record'); END;
--> statement-breakpoint
CREATE TRIGGER `agreements_stay` BEFORE UPDATE ON `agreements`
BEGIN SELECT RAISE(ABORT, 'an answer on record never changes'); END;
--> statement-breakpoint
CREATE TRIGGER `agreements_are_kept` BEFORE DELETE ON `agreements`
BEGIN SELECT RAISE(ABORT, 'an answer on record is never deleted'); END;
--> statement-breakpoint
CREATE TRIGGER `agreements_are_not_replaced` BEFORE INSERT ON `agreements` WHEN EXISTS (SELECT 1 FROM `agreements` WHERE `id` = NEW.`id`)
BEGIN SELECT RAISE(ABORT, 'UNIQUE: an answer with this id is on record'); END;
--> statement-breakpoint
CREATE TRIGGER `owner_links_stay` BEFORE UPDATE ON `owner_links`
BEGIN SELECT RAISE(ABORT, 'a link on record never changes'); END;
--> statement-breakpoint
CREATE TRIGGER `owner_links_are_kept` BEFORE DELETE ON `owner_links`
BEGIN SELECT RAISE(ABORT, 'a link on record is never deleted'); END;
--> statement-breakpoint
CREATE TRIGGER `owner_links_are_not_replaced` BEFORE INSERT ON `owner_links` WHEN EXISTS (SELECT 1 FROM `owner_links` WHERE `id` = NEW.`id`)
BEGIN SELECT RAISE(ABORT, 'UNIQUE: a link with this id is on record'); END;
--> statement-breakpoint
CREATE TRIGGER `link_withdrawals_stay` BEFORE UPDATE ON `link_withdrawals`
BEGIN SELECT RAISE(ABORT, 'a withdrawal on record never changes'); END;
--> statement-breakpoint
CREATE TRIGGER `link_withdrawals_are_kept` BEFORE DELETE ON `link_withdrawals`
BEGIN SELECT RAISE(ABORT, 'a withdrawal on record is never deleted'); END;
--> statement-breakpoint
CREATE TRIGGER `link_withdrawals_are_not_replaced` BEFORE INSERT ON `link_withdrawals` WHEN EXISTS (SELECT 1 FROM `link_withdrawals` WHERE `id` = NEW.`id`)
BEGIN SELECT RAISE(ABORT, 'UNIQUE: a withdrawal with this id is on record'); END;
--> statement-breakpoint
CREATE TRIGGER `questions_stay` BEFORE UPDATE ON `questions`
BEGIN SELECT RAISE(ABORT, 'a question on record never changes'); END;
--> statement-breakpoint
CREATE TRIGGER `questions_are_kept` BEFORE DELETE ON `questions`
BEGIN SELECT RAISE(ABORT, 'a question on record is never deleted'); END;
--> statement-breakpoint
CREATE TRIGGER `questions_are_not_replaced` BEFORE INSERT ON `questions` WHEN EXISTS (SELECT 1 FROM `questions` WHERE `id` = NEW.`id`)
BEGIN SELECT RAISE(ABORT, 'UNIQUE: a question with this id is on record'); END;
--> statement-breakpoint
CREATE TRIGGER `question_replies_stay` BEFORE UPDATE ON `question_replies`
BEGIN SELECT RAISE(ABORT, 'a reply on record never changes'); END;
--> statement-breakpoint
CREATE TRIGGER `question_replies_are_kept` BEFORE DELETE ON `question_replies`
BEGIN SELECT RAISE(ABORT, 'a reply on record is never deleted'); END;
--> statement-breakpoint
CREATE TRIGGER `question_replies_are_not_replaced` BEFORE INSERT ON `question_replies` WHEN EXISTS (SELECT 1 FROM `question_replies` WHERE `id` = NEW.`id`)
BEGIN SELECT RAISE(ABORT, 'UNIQUE: a reply with this id is on record'); END;
--> statement-breakpoint
CREATE TRIGGER `work_log_stay` BEFORE UPDATE ON `work_log`
BEGIN SELECT RAISE(ABORT, 'a log entry on record never changes'); END;
--> statement-breakpoint
CREATE TRIGGER `work_log_are_kept` BEFORE DELETE ON `work_log`
BEGIN SELECT RAISE(ABORT, 'a log entry on record is never deleted'); END;
--> statement-breakpoint
CREATE TRIGGER `work_log_are_not_replaced` BEFORE INSERT ON `work_log` WHEN EXISTS (SELECT 1 FROM `work_log` WHERE `id` = NEW.`id`)
BEGIN SELECT RAISE(ABORT, 'UNIQUE: a log entry with this id is on record'); END;
--> statement-breakpoint
CREATE TRIGGER `overrides_stay` BEFORE UPDATE ON `overrides`
BEGIN SELECT RAISE(ABORT, 'an override on record never changes'); END;
--> statement-breakpoint
CREATE TRIGGER `overrides_are_kept` BEFORE DELETE ON `overrides`
BEGIN SELECT RAISE(ABORT, 'an override on record is never deleted'); END;
--> statement-breakpoint
CREATE TRIGGER `overrides_are_not_replaced` BEFORE INSERT ON `overrides` WHEN EXISTS (SELECT 1 FROM `overrides` WHERE `id` = NEW.`id`)
BEGIN SELECT RAISE(ABORT, 'UNIQUE: an override with this id is on record'); END;
--> statement-breakpoint
CREATE TRIGGER `events_stay` BEFORE UPDATE ON `events`
BEGIN SELECT RAISE(ABORT, 'an event never changes'); END;
--> statement-breakpoint
CREATE TRIGGER `events_are_kept` BEFORE DELETE ON `events`
BEGIN SELECT RAISE(ABORT, 'an event is never deleted'); END;
--> statement-breakpoint
CREATE TRIGGER `events_follow` BEFORE INSERT ON `events` WHEN NEW.`number` <> (SELECT coalesce(max(`number`), 0) + 1 FROM `events` WHERE `job_id` = NEW.`job_id`)
BEGIN SELECT RAISE(ABORT, 'UNIQUE: an event follows the last one of its job'); END;
--> statement-breakpoint
CREATE TRIGGER `estimates_are_not_replaced` BEFORE INSERT ON `estimates` WHEN EXISTS (SELECT 1 FROM `estimates` WHERE `id` = NEW.`id` OR (`job_id` = NEW.`job_id` AND (`revision` = NEW.`revision` OR (`issued_at` IS NULL AND NEW.`issued_at` IS NULL))))
BEGIN SELECT RAISE(ABORT, 'UNIQUE: this estimate, this revision or an open draft is on record'); END;
--> statement-breakpoint
CREATE TRIGGER `rate_books_are_not_replaced` BEFORE INSERT ON `rate_books` WHEN EXISTS (SELECT 1 FROM `rate_books` WHERE `id` = NEW.`id` AND `version` = NEW.`version`)
BEGIN SELECT RAISE(ABORT, 'UNIQUE: this rate book version is on record'); END;
--> statement-breakpoint
CREATE TRIGGER `jobs_are_not_replaced` BEFORE INSERT ON `jobs` WHEN EXISTS (SELECT 1 FROM `jobs` WHERE `id` = NEW.`id` OR (`year` = NEW.`year` AND `sequence` = NEW.`sequence`))
BEGIN SELECT RAISE(ABORT, 'UNIQUE: this job or its number is on record'); END;
--> statement-breakpoint
CREATE TRIGGER `issues_match` BEFORE INSERT ON `issues` WHEN NOT EXISTS (
	SELECT 1 FROM `estimates` WHERE `id` = NEW.`id` AND `job_id` = NEW.`job_id` AND `revision` = NEW.`revision`
		AND `issued_at` = NEW.`at` AND `issued_by` = NEW.`issued_by` AND `content_hash` = NEW.`content_hash`)
BEGIN SELECT RAISE(ABORT, 'an issue is of an estimate that was just frozen with this content'); END;
--> statement-breakpoint
CREATE TRIGGER `issues_follow` BEFORE INSERT ON `issues` WHEN NEW.`revision` <> (SELECT coalesce(max(`revision`), 0) + 1 FROM `issues` WHERE `job_id` = NEW.`job_id`)
BEGIN SELECT RAISE(ABORT, 'revisions are issued one after the other'); END;
--> statement-breakpoint
CREATE TRIGGER `agreements_match` BEFORE INSERT ON `agreements` WHEN NOT EXISTS (
	SELECT 1 FROM `issues` WHERE `id` = NEW.`estimate_id` AND `job_id` = NEW.`job_id` AND `revision` = NEW.`revision`
		AND `content_hash` = NEW.`content_hash` AND `pdf_hash` = NEW.`pdf_hash`)
BEGIN SELECT RAISE(ABORT, 'an answer is to an issued revision and its very PDF'); END;
--> statement-breakpoint
CREATE TRIGGER `agreements_are_to_the_current` BEFORE INSERT ON `agreements` WHEN NEW.`answer` <> 'declined'
	AND NEW.`revision` < (SELECT max(`revision`) FROM `issues` WHERE `job_id` = NEW.`job_id`)
BEGIN SELECT RAISE(ABORT, 'a superseded revision cannot be agreed to'); END;
--> statement-breakpoint
CREATE TRIGGER `estimates_keep_their_place` BEFORE UPDATE ON `estimates` WHEN NEW.`id` <> OLD.`id` OR NEW.`job_id` <> OLD.`job_id` OR NEW.`revision` <> OLD.`revision`
BEGIN SELECT RAISE(ABORT, 'an estimate keeps its job and revision'); END;
--> statement-breakpoint
CREATE TRIGGER `jobs_keep_their_number` BEFORE UPDATE ON `jobs` WHEN NEW.`id` <> OLD.`id` OR NEW.`year` <> OLD.`year` OR NEW.`sequence` <> OLD.`sequence`
BEGIN SELECT RAISE(ABORT, 'a job keeps its number'); END;
