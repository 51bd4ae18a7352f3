CREATE TABLE `typed_drafts` (
	`id` text PRIMARY KEY NOT NULL,
	`person` text NOT NULL,
	`at` text NOT NULL,
	`version` integer NOT NULL,
	`unit` text NOT NULL,
	`fields` text NOT NULL
) STRICT;
--> statement-breakpoint
CREATE INDEX `typed_drafts_person` ON `typed_drafts` (`person`,`at`);--> statement-breakpoint
CREATE INDEX `typed_drafts_at` ON `typed_drafts` (`at`);