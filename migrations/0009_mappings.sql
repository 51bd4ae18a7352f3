CREATE TABLE `mappings` (
	`id` text PRIMARY KEY NOT NULL,
	`version` integer NOT NULL,
	`created_at` text NOT NULL,
	`updated_at` text NOT NULL,
	`what` text NOT NULL,
	`headings` text NOT NULL,
	`fields` text NOT NULL,
	`types` text NOT NULL,
	`mark` text NOT NULL
) STRICT;
