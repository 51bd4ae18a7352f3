CREATE TABLE `staff` (
	`id` text PRIMARY KEY NOT NULL,
	`version` integer NOT NULL,
	`created_at` text NOT NULL,
	`updated_at` text NOT NULL,
	`name` text NOT NULL,
	`name_key` text NOT NULL,
	`role` text NOT NULL,
	`joined_at` text,
	`left_at` text
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `staff_name_key_unique` ON `staff` (`name_key`);--> statement-breakpoint
CREATE TABLE `passkeys` (
	`id` text PRIMARY KEY NOT NULL,
	`staff_id` text NOT NULL,
	`name` text NOT NULL,
	`site` text NOT NULL,
	`public_key` text NOT NULL,
	`counter` integer NOT NULL,
	`transports` text NOT NULL,
	`made_at` text NOT NULL,
	`used_at` text,
	FOREIGN KEY (`staff_id`) REFERENCES `staff`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE INDEX `passkeys_staff` ON `passkeys` (`staff_id`);--> statement-breakpoint
CREATE TABLE `passphrases` (
	`staff_id` text PRIMARY KEY NOT NULL,
	`n` integer NOT NULL,
	`r` integer NOT NULL,
	`p` integer NOT NULL,
	`salt` text NOT NULL,
	`hash` text NOT NULL,
	`set_at` text NOT NULL,
	FOREIGN KEY (`staff_id`) REFERENCES `staff`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE TABLE `recovery_codes` (
	`code_hash` text PRIMARY KEY NOT NULL,
	`staff_id` text NOT NULL,
	`made_at` text NOT NULL,
	`used_at` text,
	FOREIGN KEY (`staff_id`) REFERENCES `staff`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE INDEX `recovery_codes_staff` ON `recovery_codes` (`staff_id`);--> statement-breakpoint
CREATE TABLE `sessions` (
	`id` text PRIMARY KEY NOT NULL,
	`token_hash` text NOT NULL,
	`staff_id` text NOT NULL,
	`how` text NOT NULL,
	`agent` text,
	`begun_at` text NOT NULL,
	`seen_at` text NOT NULL,
	`expires_at` text NOT NULL,
	`ended_at` text,
	FOREIGN KEY (`staff_id`) REFERENCES `staff`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `sessions_token_hash_unique` ON `sessions` (`token_hash`);--> statement-breakpoint
CREATE INDEX `sessions_staff` ON `sessions` (`staff_id`);--> statement-breakpoint
CREATE TABLE `api_tokens` (
	`id` text PRIMARY KEY NOT NULL,
	`token_hash` text NOT NULL,
	`staff_id` text NOT NULL,
	`name` text NOT NULL,
	`scopes` text NOT NULL,
	`made_at` text NOT NULL,
	`used_at` text,
	`revoked_at` text,
	FOREIGN KEY (`staff_id`) REFERENCES `staff`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `api_tokens_token_hash_unique` ON `api_tokens` (`token_hash`);--> statement-breakpoint
CREATE TABLE `invitations` (
	`id` text PRIMARY KEY NOT NULL,
	`secret_hash` text NOT NULL,
	`staff_id` text NOT NULL,
	`made_by` text NOT NULL,
	`made_at` text NOT NULL,
	`expires_at` text NOT NULL,
	`used_at` text,
	FOREIGN KEY (`staff_id`) REFERENCES `staff`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`made_by`) REFERENCES `staff`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `invitations_secret_hash_unique` ON `invitations` (`secret_hash`);--> statement-breakpoint
CREATE TABLE `sign_in_events` (
	`id` text PRIMARY KEY NOT NULL,
	`at` text NOT NULL,
	`what` text NOT NULL,
	`staff_id` text,
	`by_id` text,
	`how` text,
	`caller` text,
	FOREIGN KEY (`staff_id`) REFERENCES `staff`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`by_id`) REFERENCES `staff`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE INDEX `sign_in_events_at` ON `sign_in_events` (`at`);--> statement-breakpoint
CREATE INDEX `sign_in_events_what` ON `sign_in_events` (`what`);--> statement-breakpoint
CREATE TABLE `spent_challenges` (
	`hash` text PRIMARY KEY NOT NULL,
	`expires_at` text NOT NULL
) STRICT;
--> statement-breakpoint
CREATE TABLE `signing_keys` (
	`id` text PRIMARY KEY NOT NULL,
	`key` text NOT NULL,
	`made_at` text NOT NULL
) STRICT;
