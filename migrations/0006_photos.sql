CREATE TABLE `photos` (
	`id` text PRIMARY KEY NOT NULL,
	`job_id` text NOT NULL,
	`at` text NOT NULL,
	`of` text NOT NULL,
	`item` text,
	`caption` text,
	`mime` text NOT NULL,
	`width` integer NOT NULL,
	`height` integer NOT NULL,
	`turn` integer NOT NULL,
	`size` integer NOT NULL,
	`sha256` text NOT NULL,
	`taken_on` text,
	`added_by` text,
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE INDEX `photos_job` ON `photos` (`job_id`);--> statement-breakpoint
CREATE TABLE `photo_removals` (
	`id` text PRIMARY KEY NOT NULL,
	`job_id` text NOT NULL,
	`at` text NOT NULL,
	`photo_id` text NOT NULL,
	`removed_by` text,
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`photo_id`) REFERENCES `photos`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE INDEX `photo_removals_job` ON `photo_removals` (`job_id`);--> statement-breakpoint
CREATE UNIQUE INDEX `photo_removals_photo` ON `photo_removals` (`photo_id`);--> statement-breakpoint
CREATE INDEX `units_maker_model` ON `units` (lower("maker"), lower("model"));--> statement-breakpoint
CREATE TRIGGER `photos_stay` BEFORE UPDATE ON `photos`
BEGIN SELECT RAISE(ABORT, 'a photo on record never changes'); END;
--> statement-breakpoint
CREATE TRIGGER `photos_are_kept` BEFORE DELETE ON `photos`
BEGIN SELECT RAISE(ABORT, 'a photo on record is never deleted'); END;
--> statement-breakpoint
CREATE TRIGGER `photos_are_not_replaced` BEFORE INSERT ON `photos` WHEN EXISTS (SELECT 1 FROM `photos` WHERE `id` = NEW.`id`)
BEGIN SELECT RAISE(ABORT, 'UNIQUE: a photo with this id is on record'); END;
--> statement-breakpoint
CREATE TRIGGER `photo_removals_stay` BEFORE UPDATE ON `photo_removals`
BEGIN SELECT RAISE(ABORT, 'a removal on record never changes'); END;
--> statement-breakpoint
CREATE TRIGGER `photo_removals_are_kept` BEFORE DELETE ON `photo_removals`
BEGIN SELECT RAISE(ABORT, 'a removal on record is never deleted'); END;
--> statement-breakpoint
CREATE TRIGGER `photo_removals_are_not_replaced` BEFORE INSERT ON `photo_removals` WHEN EXISTS (SELECT 1 FROM `photo_removals` WHERE `id` = NEW.`id`)
BEGIN SELECT RAISE(ABORT, 'UNIQUE: a removal with this id is on record'); END;
