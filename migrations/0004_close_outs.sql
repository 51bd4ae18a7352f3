CREATE TABLE `close_outs` (
	`id` text PRIMARY KEY NOT NULL,
	`job_id` text NOT NULL,
	`at` text NOT NULL,
	`closed_on` text NOT NULL,
	`closed_by` text NOT NULL,
	`agreement_id` text NOT NULL,
	`basis` text NOT NULL,
	`result` text NOT NULL,
	`content_hash` text NOT NULL,
	`pdf_hash` text NOT NULL,
	`head_number` integer NOT NULL,
	`head_hash` text NOT NULL,
	`override_id` text,
	`corrects` text,
	`reason` text,
	`pdf` blob NOT NULL,
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`agreement_id`) REFERENCES `agreements`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`override_id`) REFERENCES `overrides`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`corrects`) REFERENCES `close_outs`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `close_outs_first` ON `close_outs` (`job_id`) WHERE "close_outs"."corrects" is null;--> statement-breakpoint
CREATE UNIQUE INDEX `close_outs_correction` ON `close_outs` (`corrects`);--> statement-breakpoint
CREATE INDEX `close_outs_job` ON `close_outs` (`job_id`);--> statement-breakpoint
CREATE TABLE `outcomes` (
	`job_id` text PRIMARY KEY NOT NULL,
	`close_out_id` text NOT NULL,
	`closed_on` text NOT NULL,
	`month` text NOT NULL,
	`model` text NOT NULL,
	`currency` text NOT NULL,
	`quoted_total` integer NOT NULL,
	`agreed_total` integer NOT NULL,
	`billed_total` integer NOT NULL,
	`revenue` integer NOT NULL,
	`cost` integer,
	`planned_margin` integer,
	`p50` integer NOT NULL,
	`p80` integer NOT NULL,
	`actual` integer NOT NULL,
	`agreed_minutes` real NOT NULL,
	`allowed_minutes` real NOT NULL,
	`actual_minutes` real NOT NULL,
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`close_out_id`) REFERENCES `close_outs`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE INDEX `outcomes_closed` ON `outcomes` (`closed_on`);--> statement-breakpoint
CREATE INDEX `outcomes_month` ON `outcomes` (`month`);--> statement-breakpoint
CREATE INDEX `outcomes_model` ON `outcomes` (`model`,`closed_on`);--> statement-breakpoint
CREATE TABLE `observations` (
	`job_id` text NOT NULL,
	`rate_book_id` text NOT NULL,
	`rate_book_version` integer NOT NULL,
	`line` text NOT NULL,
	`standard` text NOT NULL,
	`closed_on` text NOT NULL,
	`model` text NOT NULL,
	`grade` text NOT NULL,
	`minutes` real NOT NULL,
	`low` real NOT NULL,
	`likely` real NOT NULL,
	`high` real NOT NULL,
	`own_low` real NOT NULL,
	`own_likely` real NOT NULL,
	`own_high` real NOT NULL,
	`rate_per_hour` integer NOT NULL,
	PRIMARY KEY(`job_id`, `rate_book_id`, `rate_book_version`, `line`, `standard`),
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE INDEX `observations_standard` ON `observations` (`standard`,`closed_on`);--> statement-breakpoint
CREATE INDEX `observations_book` ON `observations` (`rate_book_id`,`rate_book_version`,`closed_on`);--> statement-breakpoint
CREATE TABLE `observed` (
	`job_id` text NOT NULL,
	`rate_book_id` text NOT NULL,
	`rate_book_version` integer NOT NULL,
	PRIMARY KEY(`job_id`, `rate_book_id`, `rate_book_version`),
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE TABLE `standard_costs` (
	`currency` text NOT NULL,
	`standard` text NOT NULL,
	`month` text NOT NULL,
	`observations` integer NOT NULL,
	`jobs` integer NOT NULL,
	`allowed` integer NOT NULL,
	`taken` integer NOT NULL,
	`cost` integer NOT NULL,
	PRIMARY KEY(`currency`, `standard`, `month`)
) STRICT;
--> statement-breakpoint
CREATE TRIGGER `close_outs_stay` BEFORE UPDATE ON `close_outs`
BEGIN SELECT RAISE(ABORT, 'a close-out on record never changes'); END;
--> statement-breakpoint
CREATE TRIGGER `close_outs_are_kept` BEFORE DELETE ON `close_outs`
BEGIN SELECT RAISE(ABORT, 'a close-out on record is never deleted'); END;
--> statement-breakpoint
CREATE TRIGGER `close_outs_are_not_replaced` BEFORE INSERT ON `close_outs` WHEN EXISTS (SELECT 1 FROM `close_outs` WHERE `id` = NEW.`id`)
BEGIN SELECT RAISE(ABORT, 'UNIQUE: a close-out with this id is on record'); END;
--> statement-breakpoint
CREATE TRIGGER `close_outs_match` BEFORE INSERT ON `close_outs` WHEN NOT EXISTS (
	SELECT 1 FROM `agreements` WHERE `id` = NEW.`agreement_id` AND `job_id` = NEW.`job_id` AND `answer` <> 'declined')
	OR (NEW.`corrects` IS NOT NULL AND NOT EXISTS (SELECT 1 FROM `close_outs` WHERE `id` = NEW.`corrects` AND `job_id` = NEW.`job_id`))
BEGIN SELECT RAISE(ABORT, 'a close-out rests on an agreement of its job'); END;

--> statement-breakpoint
CREATE TRIGGER `close_outs_close_needs` AFTER INSERT ON `close_outs`
BEGIN
	DELETE FROM `open_needs` WHERE `job_id` = NEW.`job_id`;
END;
--> statement-breakpoint
CREATE TRIGGER `closed_jobs_need_nothing` AFTER INSERT ON `open_needs` WHEN EXISTS (SELECT 1 FROM `close_outs` WHERE `job_id` = NEW.`job_id`)
BEGIN
	DELETE FROM `open_needs` WHERE `job_id` = NEW.`job_id`;
END;
