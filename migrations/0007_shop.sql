CREATE TABLE `logos` (
	`id` text PRIMARY KEY NOT NULL,
	`added_at` text NOT NULL,
	`kind` text NOT NULL,
	`width` integer NOT NULL,
	`height` integer NOT NULL,
	`bytes` blob NOT NULL
) STRICT;
--> statement-breakpoint
ALTER TABLE `settings` ADD `profile_terms` text;
--> statement-breakpoint
ALTER TABLE `settings` ADD `language` text;
--> statement-breakpoint
ALTER TABLE `settings` ADD `footer` text;
--> statement-breakpoint
ALTER TABLE `settings` ADD `logo` text REFERENCES `logos`(`id`);
--> statement-breakpoint
ALTER TABLE `owners` ADD `language` text;
--> statement-breakpoint
ALTER TABLE `owners` ADD `locale` text;
