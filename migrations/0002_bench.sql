ALTER TABLE `work_log` ADD `assembly` text;
--> statement-breakpoint
ALTER TABLE `work_log` ADD `offer` text;
--> statement-breakpoint
ALTER TABLE `work_log` ADD `started_at` text;
--> statement-breakpoint
ALTER TABLE `work_log` ADD `ended_at` text;
--> statement-breakpoint
ALTER TABLE `work_log` ADD `part_kind` text;
--> statement-breakpoint
ALTER TABLE `work_log` ADD `part_type` text;
--> statement-breakpoint
ALTER TABLE `work_log` ADD `part_count` integer;
--> statement-breakpoint
ALTER TABLE `work_log` ADD `paid_price` integer;
--> statement-breakpoint
ALTER TABLE `work_log` ADD `paid_per` integer;
--> statement-breakpoint
ALTER TABLE `work_log` ADD `part_state` text;
--> statement-breakpoint
ALTER TABLE `work_log` ADD `instead_of` integer;
--> statement-breakpoint
CREATE INDEX `work_log_person` ON `work_log` (`person`,`started_at`) WHERE "work_log"."started_at" is not null;
--> statement-breakpoint
CREATE TABLE `timers` (
	`id` text PRIMARY KEY NOT NULL,
	`job_id` text NOT NULL,
	`person` text NOT NULL,
	`started_at` text NOT NULL,
	`item` text,
	`assembly` text,
	`offer` text,
	`labour_class` text,
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `timers_person` ON `timers` (`person`);
--> statement-breakpoint
CREATE INDEX `timers_job` ON `timers` (`job_id`);
--> statement-breakpoint
CREATE TABLE `tick_offs` (
	`id` text PRIMARY KEY NOT NULL,
	`job_id` text NOT NULL,
	`at` text NOT NULL,
	`item` text NOT NULL,
	`count` integer NOT NULL,
	`person` text NOT NULL,
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE INDEX `tick_offs_job` ON `tick_offs` (`job_id`);
--> statement-breakpoint
CREATE TABLE `readings` (
	`id` text PRIMARY KEY NOT NULL,
	`job_id` text NOT NULL,
	`at` text NOT NULL,
	`label` text NOT NULL,
	`expected` real,
	`found` real NOT NULL,
	`unit` text NOT NULL,
	`assembly` text,
	`person` text NOT NULL,
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE INDEX `readings_job` ON `readings` (`job_id`);
--> statement-breakpoint
CREATE TRIGGER `tick_offs_stay` BEFORE UPDATE ON `tick_offs`
BEGIN SELECT RAISE(ABORT, 'a tick-off on record never changes'); END;
--> statement-breakpoint
CREATE TRIGGER `tick_offs_are_kept` BEFORE DELETE ON `tick_offs`
BEGIN SELECT RAISE(ABORT, 'a tick-off on record is never deleted'); END;
--> statement-breakpoint
CREATE TRIGGER `tick_offs_are_not_replaced` BEFORE INSERT ON `tick_offs` WHEN EXISTS (SELECT 1 FROM `tick_offs` WHERE `id` = NEW.`id`)
BEGIN SELECT RAISE(ABORT, 'UNIQUE: a tick-off with this id is on record'); END;
--> statement-breakpoint
CREATE TRIGGER `readings_stay` BEFORE UPDATE ON `readings`
BEGIN SELECT RAISE(ABORT, 'a reading on record never changes'); END;
--> statement-breakpoint
CREATE TRIGGER `readings_are_kept` BEFORE DELETE ON `readings`
BEGIN SELECT RAISE(ABORT, 'a reading on record is never deleted'); END;
--> statement-breakpoint
CREATE TRIGGER `readings_are_not_replaced` BEFORE INSERT ON `readings` WHEN EXISTS (SELECT 1 FROM `readings` WHERE `id` = NEW.`id`)
BEGIN SELECT RAISE(ABORT, 'UNIQUE: a reading with this id is on record'); END;
