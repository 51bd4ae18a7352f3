CREATE TABLE `log_withdrawals` (
	`id` text PRIMARY KEY NOT NULL,
	`job_id` text NOT NULL,
	`at` text NOT NULL,
	`entry_id` text NOT NULL,
	`withdrawn_by` text NOT NULL,
	`reason` text NOT NULL,
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`entry_id`) REFERENCES `work_log`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `log_withdrawals_entry` ON `log_withdrawals` (`entry_id`);--> statement-breakpoint
CREATE INDEX `log_withdrawals_job` ON `log_withdrawals` (`job_id`);--> statement-breakpoint
CREATE TRIGGER `log_withdrawals_stay` BEFORE UPDATE ON `log_withdrawals`
BEGIN SELECT RAISE(ABORT, 'a withdrawal on record never changes'); END;
--> statement-breakpoint
CREATE TRIGGER `log_withdrawals_are_kept` BEFORE DELETE ON `log_withdrawals`
BEGIN SELECT RAISE(ABORT, 'a withdrawal on record is never deleted'); END;
--> statement-breakpoint
CREATE TRIGGER `log_withdrawals_are_not_replaced` BEFORE INSERT ON `log_withdrawals`
	WHEN EXISTS (SELECT 1 FROM `log_withdrawals` WHERE `id` = NEW.`id` OR `entry_id` = NEW.`entry_id`)
BEGIN SELECT RAISE(ABORT, 'UNIQUE: a withdrawal of this entry is on record'); END;
--> statement-breakpoint
CREATE TRIGGER `log_withdrawals_of_the_job` BEFORE INSERT ON `log_withdrawals`
	WHEN NOT EXISTS (SELECT 1 FROM `work_log` WHERE `id` = NEW.`entry_id` AND `job_id` = NEW.`job_id`)
BEGIN SELECT RAISE(ABORT, 'an entry is withdrawn on its own job'); END;
