CREATE TABLE `stock_movements` (
	`number` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`id` text NOT NULL,
	`kind` text NOT NULL,
	`why` text NOT NULL,
	`change` integer NOT NULL,
	`beyond` integer NOT NULL,
	`stands_at` integer NOT NULL,
	`reason` text,
	`job_id` text,
	`goods_in_id` text,
	`at` text NOT NULL,
	`by` text NOT NULL,
	FOREIGN KEY (`kind`) REFERENCES `part_kinds`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`goods_in_id`) REFERENCES `goods_in`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `stock_movements_id` ON `stock_movements` (`id`);--> statement-breakpoint
CREATE INDEX `stock_movements_kind` ON `stock_movements` (`kind`,`number`);--> statement-breakpoint
CREATE INDEX `stock_movements_job` ON `stock_movements` (`job_id`) WHERE job_id is not null;--> statement-breakpoint
CREATE TABLE `open_needs` (
	`job_id` text PRIMARY KEY NOT NULL,
	`answer_id` text,
	`needs` text,
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE INDEX `open_needs_empty` ON `open_needs` (`job_id`) WHERE needs is null;--> statement-breakpoint
CREATE TABLE `orders` (
	`id` text PRIMARY KEY NOT NULL,
	`at` text NOT NULL,
	`by` text NOT NULL,
	`source` text NOT NULL,
	`ordered_on` text NOT NULL,
	`currency` text NOT NULL,
	`freight` integer NOT NULL,
	`note` text
) STRICT;
--> statement-breakpoint
CREATE TABLE `order_lines` (
	`id` text PRIMARY KEY NOT NULL,
	`order_id` text NOT NULL,
	`kind` text NOT NULL,
	`offer_id` text NOT NULL,
	`packs` integer NOT NULL,
	`pack_size` integer NOT NULL,
	`price` integer NOT NULL,
	`pieces` integer NOT NULL,
	`jobs` text NOT NULL,
	`came` integer NOT NULL,
	`ended` integer NOT NULL,
	FOREIGN KEY (`order_id`) REFERENCES `orders`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`kind`) REFERENCES `part_kinds`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`offer_id`) REFERENCES `offers`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE INDEX `order_lines_order` ON `order_lines` (`order_id`);--> statement-breakpoint
CREATE INDEX `order_lines_open` ON `order_lines` (`kind`) WHERE came < pieces and ended = 0;--> statement-breakpoint
CREATE TABLE `order_endings` (
	`id` text PRIMARY KEY NOT NULL,
	`at` text NOT NULL,
	`by` text NOT NULL,
	`reason` text NOT NULL,
	FOREIGN KEY (`id`) REFERENCES `orders`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE TABLE `goods_in` (
	`id` text PRIMARY KEY NOT NULL,
	`at` text NOT NULL,
	`by` text NOT NULL,
	`received_on` text NOT NULL,
	`kind` text NOT NULL,
	`source` text NOT NULL,
	`state` text NOT NULL,
	`pieces` integer NOT NULL,
	`currency` text NOT NULL,
	`paid` integer NOT NULL,
	`freight` integer,
	`offer_id` text NOT NULL,
	`order_line_id` text,
	`note` text,
	FOREIGN KEY (`kind`) REFERENCES `part_kinds`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`offer_id`) REFERENCES `offers`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`order_line_id`) REFERENCES `order_lines`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE INDEX `goods_in_at` ON `goods_in` (`at`,`id`);--> statement-breakpoint
CREATE TABLE `goods_in_tests` (
	`id` text PRIMARY KEY NOT NULL,
	`goods_in_id` text NOT NULL,
	`at` text NOT NULL,
	`by` text NOT NULL,
	`good` integer NOT NULL,
	`bad` integer NOT NULL,
	FOREIGN KEY (`goods_in_id`) REFERENCES `goods_in`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE INDEX `goods_in_tests_lot` ON `goods_in_tests` (`goods_in_id`);--> statement-breakpoint
CREATE TABLE `seen_good` (
	`source` text NOT NULL,
	`state` text NOT NULL,
	`good` integer NOT NULL,
	`bad` integer NOT NULL,
	PRIMARY KEY(`source`, `state`)
) STRICT;
--> statement-breakpoint
INSERT INTO `stock_movements` (`id`,`kind`,`why`,`change`,`beyond`,`stands_at`,`reason`,`at`,`by`)
	SELECT lower(hex(randomblob(16))), `id`, 'counted', `stock`, 0, `stock`, 'on record before movements were kept', `updated_at`, 'catalogue'
	FROM `part_kinds` WHERE `stock` > 0;
--> statement-breakpoint
INSERT INTO `open_needs` (`job_id`) SELECT DISTINCT `job_id` FROM `agreements` WHERE `answer` <> 'declined';
--> statement-breakpoint
CREATE TRIGGER `stock_movements_follow` BEFORE INSERT ON `stock_movements`
	WHEN NEW.`stands_at` < 0 OR NEW.`stands_at` <> NEW.`change` + coalesce((SELECT `stands_at` FROM `stock_movements` WHERE `kind` = NEW.`kind` ORDER BY `number` DESC LIMIT 1), 0)
BEGIN SELECT RAISE(ABORT, 'a count follows the one before it, and is never below nought'); END;
--> statement-breakpoint
CREATE TRIGGER `stock_movements_stay` BEFORE UPDATE ON `stock_movements`
BEGIN SELECT RAISE(ABORT, 'a movement on record never changes'); END;
--> statement-breakpoint
CREATE TRIGGER `stock_movements_are_kept` BEFORE DELETE ON `stock_movements`
BEGIN SELECT RAISE(ABORT, 'a movement on record is never deleted'); END;
--> statement-breakpoint
CREATE TRIGGER `stock_movements_are_not_replaced` BEFORE INSERT ON `stock_movements` WHEN EXISTS (SELECT 1 FROM `stock_movements` WHERE `id` = NEW.`id`)
BEGIN SELECT RAISE(ABORT, 'UNIQUE: a movement with this id is on record'); END;
--> statement-breakpoint
CREATE TRIGGER `stock_movements_count` AFTER INSERT ON `stock_movements`
BEGIN
	UPDATE `part_kinds` SET `stock` = NEW.`stands_at`, `version` = `version` + 1, `updated_at` = NEW.`at`
		WHERE `id` = NEW.`kind` AND coalesce(`stock`, 0) <> NEW.`stands_at`;
END;
--> statement-breakpoint
CREATE TRIGGER `part_kinds_come_with_stock` AFTER INSERT ON `part_kinds` WHEN NEW.`stock` > 0
BEGIN
	INSERT INTO `stock_movements` (`id`,`kind`,`why`,`change`,`beyond`,`stands_at`,`reason`,`at`,`by`)
		VALUES (lower(hex(randomblob(16))), NEW.`id`, 'counted', NEW.`stock`, 0, NEW.`stock`, 'set in the catalogue', NEW.`created_at`, 'catalogue');
END;
--> statement-breakpoint
CREATE TRIGGER `part_kinds_stock_counted` AFTER UPDATE OF `stock` ON `part_kinds`
	WHEN coalesce(NEW.`stock`, 0) <> coalesce((SELECT `stands_at` FROM `stock_movements` WHERE `kind` = NEW.`id` ORDER BY `number` DESC LIMIT 1), 0)
BEGIN
	INSERT INTO `stock_movements` (`id`,`kind`,`why`,`change`,`beyond`,`stands_at`,`reason`,`at`,`by`)
		SELECT lower(hex(randomblob(16))), NEW.`id`, 'counted',
			coalesce(NEW.`stock`, 0) - coalesce((SELECT `stands_at` FROM `stock_movements` WHERE `kind` = NEW.`id` ORDER BY `number` DESC LIMIT 1), 0),
			0, coalesce(NEW.`stock`, 0), 'set in the catalogue', NEW.`updated_at`, 'catalogue';
END;
--> statement-breakpoint
CREATE TRIGGER `agreements_open_needs` AFTER INSERT ON `agreements`
BEGIN
	INSERT INTO `open_needs` (`job_id`,`answer_id`) VALUES (NEW.`job_id`, NEW.`id`)
		ON CONFLICT (`job_id`) DO UPDATE SET `answer_id` = NEW.`id`, `needs` = NULL;
END;
--> statement-breakpoint
CREATE TRIGGER `orders_stay` BEFORE UPDATE ON `orders`
BEGIN SELECT RAISE(ABORT, 'an order on record never changes'); END;
--> statement-breakpoint
CREATE TRIGGER `orders_are_kept` BEFORE DELETE ON `orders`
BEGIN SELECT RAISE(ABORT, 'an order on record is never deleted'); END;
--> statement-breakpoint
CREATE TRIGGER `goods_in_stay` BEFORE UPDATE ON `goods_in`
BEGIN SELECT RAISE(ABORT, 'goods in on record never change'); END;
--> statement-breakpoint
CREATE TRIGGER `goods_in_are_kept` BEFORE DELETE ON `goods_in`
BEGIN SELECT RAISE(ABORT, 'goods in on record are never deleted'); END;
--> statement-breakpoint
CREATE TRIGGER `goods_in_came` AFTER INSERT ON `goods_in` WHEN NEW.`order_line_id` IS NOT NULL
BEGIN
	UPDATE `order_lines` SET `came` = `came` + NEW.`pieces` WHERE `id` = NEW.`order_line_id`;
END;
--> statement-breakpoint
CREATE TRIGGER `orders_end` AFTER INSERT ON `order_endings`
BEGIN
	UPDATE `order_lines` SET `ended` = 1 WHERE `order_id` = NEW.`id`;
END;
--> statement-breakpoint
CREATE TRIGGER `goods_in_tests_stay` BEFORE UPDATE ON `goods_in_tests`
BEGIN SELECT RAISE(ABORT, 'a test on record never changes'); END;
--> statement-breakpoint
CREATE TRIGGER `goods_in_tests_are_kept` BEFORE DELETE ON `goods_in_tests`
BEGIN SELECT RAISE(ABORT, 'a test on record is never deleted'); END;
--> statement-breakpoint
CREATE TRIGGER `goods_in_tests_within` BEFORE INSERT ON `goods_in_tests` WHEN NEW.`good` < 0 OR NEW.`bad` < 0 OR NEW.`good` + NEW.`bad` +
	(SELECT coalesce(sum(`good` + `bad`), 0) FROM `goods_in_tests` WHERE `goods_in_id` = NEW.`goods_in_id`) >
	(SELECT `pieces` FROM `goods_in` WHERE `id` = NEW.`goods_in_id`)
BEGIN SELECT RAISE(ABORT, 'no more pieces are tested than came in'); END;
--> statement-breakpoint
CREATE TRIGGER `goods_in_tests_seen` AFTER INSERT ON `goods_in_tests`
BEGIN
	INSERT INTO `seen_good` (`source`,`state`,`good`,`bad`)
		SELECT `source`, `state`, NEW.`good`, NEW.`bad` FROM `goods_in` WHERE `id` = NEW.`goods_in_id`
		ON CONFLICT (`source`,`state`) DO UPDATE SET `good` = `good` + NEW.`good`, `bad` = `bad` + NEW.`bad`;
END;
