CREATE TABLE `send_hooks` (
	`id` text PRIMARY KEY NOT NULL,
	`version` integer NOT NULL,
	`created_at` text NOT NULL,
	`updated_at` text NOT NULL,
	`url` text,
	`secret` text NOT NULL
) STRICT;
--> statement-breakpoint
CREATE TABLE `send_attempts` (
	`id` text PRIMARY KEY NOT NULL,
	`at` text NOT NULL,
	`job_id` text,
	`status` integer,
	`failure` text,
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
