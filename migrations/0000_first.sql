CREATE TABLE `estimates` (
	`id` text PRIMARY KEY NOT NULL,
	`version` integer NOT NULL,
	`created_at` text NOT NULL,
	`updated_at` text NOT NULL,
	`job_id` text NOT NULL,
	`revision` integer NOT NULL,
	`rate_book_id` text NOT NULL,
	`rate_book_version` integer NOT NULL,
	`input` text NOT NULL,
	`sheet` text,
	`content_hash` text NOT NULL,
	`issued_at` text,
	`issued_by` text,
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`rate_book_id`,`rate_book_version`) REFERENCES `rate_books`(`id`,`version`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `estimates_revision` ON `estimates` (`job_id`,`revision`);--> statement-breakpoint
CREATE TABLE `idempotent_replies` (
	`target` text NOT NULL,
	`key` text NOT NULL,
	`fingerprint` text NOT NULL,
	`started_at` text NOT NULL,
	`status` integer,
	`headers` text,
	`body` text,
	PRIMARY KEY(`target`, `key`)
) STRICT;
--> statement-breakpoint
CREATE TABLE `jobs` (
	`id` text PRIMARY KEY NOT NULL,
	`version` integer NOT NULL,
	`created_at` text NOT NULL,
	`updated_at` text NOT NULL,
	`year` integer NOT NULL,
	`sequence` integer NOT NULL,
	`owner_id` text NOT NULL,
	`unit_id` text NOT NULL,
	`arrived_on` text NOT NULL,
	`reported` text,
	`condition` text,
	`accessories` text,
	`notes` text,
	FOREIGN KEY (`owner_id`) REFERENCES `owners`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`unit_id`) REFERENCES `units`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `jobs_number` ON `jobs` (`year`,`sequence`);--> statement-breakpoint
CREATE INDEX `jobs_owner` ON `jobs` (`owner_id`);--> statement-breakpoint
CREATE INDEX `jobs_unit` ON `jobs` (`unit_id`);--> statement-breakpoint
CREATE TABLE `models` (
	`id` text PRIMARY KEY NOT NULL,
	`version` integer NOT NULL,
	`created_at` text NOT NULL,
	`updated_at` text NOT NULL,
	`maker` text NOT NULL,
	`model` text NOT NULL,
	`map` text NOT NULL,
	`hazards` text,
	`notes` text
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `models_maker_model` ON `models` (lower("maker"),lower("model"));--> statement-breakpoint
CREATE TABLE `offers` (
	`id` text PRIMARY KEY NOT NULL,
	`version` integer NOT NULL,
	`created_at` text NOT NULL,
	`updated_at` text NOT NULL,
	`kind` text NOT NULL,
	`source` text NOT NULL,
	`offered_on` text NOT NULL,
	`currency` text NOT NULL,
	`price` integer NOT NULL,
	`pack_size` integer NOT NULL,
	`minimum_packs` integer,
	`available` integer,
	`lead_days` integer NOT NULL,
	`state` text NOT NULL,
	`share_good` real,
	`freight` integer,
	`pull_minutes` real,
	FOREIGN KEY (`kind`) REFERENCES `part_kinds`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE INDEX `offers_kind` ON `offers` (`kind`);--> statement-breakpoint
CREATE TABLE `owners` (
	`id` text PRIMARY KEY NOT NULL,
	`version` integer NOT NULL,
	`created_at` text NOT NULL,
	`updated_at` text NOT NULL,
	`name` text NOT NULL,
	`address` text,
	`phone` text,
	`email` text,
	`tax_number` text,
	`registration` text,
	`notes` text
) STRICT;
--> statement-breakpoint
CREATE TABLE `part_kinds` (
	`id` text PRIMARY KEY NOT NULL,
	`version` integer NOT NULL,
	`created_at` text NOT NULL,
	`updated_at` text NOT NULL,
	`type` text NOT NULL,
	`name` text NOT NULL,
	`value` text,
	`rated_volts` real,
	`tolerance_percent` real,
	`form` text,
	`audio_grade` integer,
	`leads` integer,
	`scarcity` text,
	`stock` integer,
	`notes` text
) STRICT;
--> statement-breakpoint
CREATE TABLE `rate_books` (
	`id` text NOT NULL,
	`version` integer NOT NULL,
	`name` text NOT NULL,
	`in_force_from` text NOT NULL,
	`book` text NOT NULL,
	`created_at` text NOT NULL,
	`updated_at` text NOT NULL,
	PRIMARY KEY(`id`, `version`)
) STRICT;
--> statement-breakpoint
CREATE TABLE `settings` (
	`id` text PRIMARY KEY NOT NULL,
	`version` integer NOT NULL,
	`created_at` text NOT NULL,
	`updated_at` text NOT NULL,
	`name` text NOT NULL,
	`address` text,
	`phone` text,
	`email` text,
	`tax_number` text,
	`registration` text,
	`currency` text NOT NULL,
	`locale` text NOT NULL,
	`time_zone` text NOT NULL,
	`paper` text NOT NULL,
	`terms` text,
	`rate_book_id` text NOT NULL,
	`bench_queue_days` integer NOT NULL
) STRICT;
--> statement-breakpoint
CREATE TABLE `sign_in_attempts` (
	`window` text NOT NULL,
	`caller` text NOT NULL,
	`failures` integer NOT NULL,
	PRIMARY KEY(`window`, `caller`)
) STRICT;
--> statement-breakpoint
CREATE TABLE `units` (
	`id` text PRIMARY KEY NOT NULL,
	`version` integer NOT NULL,
	`created_at` text NOT NULL,
	`updated_at` text NOT NULL,
	`owner_id` text NOT NULL,
	`model_id` text,
	`maker` text NOT NULL,
	`model` text NOT NULL,
	`serial` text,
	`declared_value` integer,
	`hazards` text,
	`notes` text,
	FOREIGN KEY (`owner_id`) REFERENCES `owners`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`model_id`) REFERENCES `models`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE INDEX `units_owner` ON `units` (`owner_id`);
--> statement-breakpoint
CREATE TRIGGER `issued_estimates_stay` BEFORE UPDATE ON `estimates` WHEN OLD.`issued_at` IS NOT NULL
BEGIN SELECT RAISE(ABORT, 'an issued estimate never changes'); END;--> statement-breakpoint
CREATE TRIGGER `estimates_are_kept` BEFORE DELETE ON `estimates`
BEGIN SELECT RAISE(ABORT, 'an estimate is never deleted'); END;--> statement-breakpoint
CREATE TRIGGER `jobs_are_kept` BEFORE DELETE ON `jobs`
BEGIN SELECT RAISE(ABORT, 'a job is never deleted: its number would be missing'); END;--> statement-breakpoint
CREATE TRIGGER `rate_books_stay` BEFORE UPDATE ON `rate_books`
BEGIN SELECT RAISE(ABORT, 'a rate book version never changes'); END;--> statement-breakpoint
CREATE TRIGGER `rate_books_are_kept` BEFORE DELETE ON `rate_books`
BEGIN SELECT RAISE(ABORT, 'a rate book version is never deleted'); END;
