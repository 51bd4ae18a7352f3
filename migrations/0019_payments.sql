-- Money taken or given back on a job, and what was recorded by mistake.
CREATE TABLE `payment_withdrawals` (
	`id` text PRIMARY KEY NOT NULL,
	`job_id` text NOT NULL,
	`at` text NOT NULL,
	`payment_id` text NOT NULL,
	`withdrawn_by` text NOT NULL,
	`reason` text NOT NULL,
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`payment_id`) REFERENCES `payments`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `payment_withdrawals_payment` ON `payment_withdrawals` (`payment_id`);--> statement-breakpoint
CREATE INDEX `payment_withdrawals_job` ON `payment_withdrawals` (`job_id`);--> statement-breakpoint
CREATE TABLE `payments` (
	`id` text PRIMARY KEY NOT NULL,
	`job_id` text NOT NULL,
	`at` text NOT NULL,
	`paid_for` text NOT NULL,
	`amount` integer NOT NULL,
	`paid_on` text NOT NULL,
	`how` text NOT NULL,
	`taken_by` text NOT NULL,
	`note` text,
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE INDEX `payments_job` ON `payments` (`job_id`);
--> statement-breakpoint
CREATE TRIGGER `payments_stay` BEFORE UPDATE ON `payments`
BEGIN SELECT RAISE(ABORT, 'a payment on record never changes'); END;
--> statement-breakpoint
CREATE TRIGGER `payments_are_kept` BEFORE DELETE ON `payments`
BEGIN SELECT RAISE(ABORT, 'a payment on record is never deleted'); END;
--> statement-breakpoint
CREATE TRIGGER `payments_are_not_replaced` BEFORE INSERT ON `payments`
	WHEN EXISTS (SELECT 1 FROM `payments` WHERE `id` = NEW.`id`)
BEGIN SELECT RAISE(ABORT, 'UNIQUE: this payment is on record'); END;
--> statement-breakpoint
CREATE TRIGGER `payment_withdrawals_stay` BEFORE UPDATE ON `payment_withdrawals`
BEGIN SELECT RAISE(ABORT, 'a withdrawal on record never changes'); END;
--> statement-breakpoint
CREATE TRIGGER `payment_withdrawals_are_kept` BEFORE DELETE ON `payment_withdrawals`
BEGIN SELECT RAISE(ABORT, 'a withdrawal on record is never deleted'); END;
--> statement-breakpoint
CREATE TRIGGER `payment_withdrawals_are_not_replaced` BEFORE INSERT ON `payment_withdrawals`
	WHEN EXISTS (SELECT 1 FROM `payment_withdrawals` WHERE `id` = NEW.`id` OR `payment_id` = NEW.`payment_id`)
BEGIN SELECT RAISE(ABORT, 'UNIQUE: this withdrawal is on record'); END;
--> statement-breakpoint
CREATE TRIGGER `payment_withdrawals_of_the_job` BEFORE INSERT ON `payment_withdrawals`
	WHEN NOT EXISTS (SELECT 1 FROM `payments` WHERE `id` = NEW.`payment_id` AND `job_id` = NEW.`job_id`)
BEGIN SELECT RAISE(ABORT, 'a payment is withdrawn on its own job'); END;
--> statement-breakpoint
CREATE TRIGGER `payments_above_nothing` BEFORE INSERT ON `payments`
	WHEN NEW.`amount` <= 0
BEGIN SELECT RAISE(ABORT, 'a payment is above 0'); END;
