-- Donor units: what can still be pulled from one stands among the offers.
CREATE TABLE `donors` (
	`id` text PRIMARY KEY NOT NULL,
	`version` integer NOT NULL,
	`created_at` text NOT NULL,
	`updated_at` text NOT NULL,
	`maker` text NOT NULL,
	`model` text NOT NULL,
	`serial` text,
	`bought_on` text NOT NULL,
	`currency` text NOT NULL,
	`cost` integer NOT NULL,
	`notes` text,
	`withdrawal` text
) STRICT;
--> statement-breakpoint
ALTER TABLE `offers` ADD `donor` text REFERENCES donors(id);--> statement-breakpoint
CREATE INDEX `offers_donor` ON `offers` (`donor`) WHERE donor is not null;--> statement-breakpoint
CREATE INDEX `goods_in_kind` ON `goods_in` (`kind`,`id`);
--> statement-breakpoint
-- A part of the catalogue is found by any piece of what is said of it, or of who offers it.
CREATE TABLE `catalogue_entries` (
	`id` integer PRIMARY KEY NOT NULL,
	`kind` text NOT NULL,
	`told` text NOT NULL,
	FOREIGN KEY (`kind`) REFERENCES `part_kinds`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `catalogue_entries_kind` ON `catalogue_entries` (`kind`);
--> statement-breakpoint
CREATE VIRTUAL TABLE `catalogue_words` USING fts5(`told`, content='catalogue_entries', content_rowid='id', tokenize='trigram remove_diacritics 1');
--> statement-breakpoint
CREATE VIEW `catalogue_texts` AS SELECT k.`id` AS `kind`,
	concat_ws(' ', k.`name`, k.`id`, k.`type`, k.`value`, printf('%g', k.`rated_volts`) || 'V', printf('%g', k.`tolerance_percent`) || '%', k.`form`, k.`notes`,
		(SELECT group_concat(`source`, ' ') FROM (SELECT DISTINCT o.`source` FROM `offers` o WHERE o.`kind` = k.`id` AND o.`withdrawal` IS NULL))) AS `told`
FROM `part_kinds` k;
--> statement-breakpoint
CREATE TRIGGER `catalogue_entry_added` AFTER INSERT ON `catalogue_entries`
BEGIN
	INSERT INTO `catalogue_words` (rowid, `told`) VALUES (NEW.`id`, NEW.`told`);
END;
--> statement-breakpoint
CREATE TRIGGER `catalogue_entry_changed` AFTER UPDATE ON `catalogue_entries` WHEN NEW.`told` <> OLD.`told`
BEGIN
	INSERT INTO `catalogue_words` (`catalogue_words`, rowid, `told`) VALUES ('delete', OLD.`id`, OLD.`told`);
	INSERT INTO `catalogue_words` (rowid, `told`) VALUES (NEW.`id`, NEW.`told`);
END;
--> statement-breakpoint
CREATE TRIGGER `catalogue_kind_added` AFTER INSERT ON `part_kinds`
BEGIN
	INSERT INTO `catalogue_entries` (`kind`, `told`) SELECT `kind`, `told` FROM `catalogue_texts` WHERE `kind` = NEW.`id`;
END;
--> statement-breakpoint
CREATE TRIGGER `catalogue_kind_changed` AFTER UPDATE OF `name`, `type`, `value`, `rated_volts`, `tolerance_percent`, `form`, `notes` ON `part_kinds`
BEGIN
	UPDATE `catalogue_entries` SET `told` = (SELECT t.`told` FROM `catalogue_texts` t WHERE t.`kind` = NEW.`id`) WHERE `kind` = NEW.`id`;
END;
--> statement-breakpoint
CREATE TRIGGER `catalogue_offer_added` AFTER INSERT ON `offers`
BEGIN
	UPDATE `catalogue_entries` SET `told` = (SELECT t.`told` FROM `catalogue_texts` t WHERE t.`kind` = NEW.`kind`) WHERE `kind` = NEW.`kind`;
END;
--> statement-breakpoint
CREATE TRIGGER `catalogue_offer_changed` AFTER UPDATE OF `kind`, `source`, `withdrawal` ON `offers`
BEGIN
	UPDATE `catalogue_entries` SET `told` = (SELECT t.`told` FROM `catalogue_texts` t WHERE t.`kind` = `catalogue_entries`.`kind`) WHERE `kind` IN (NEW.`kind`, OLD.`kind`);
END;
--> statement-breakpoint
INSERT INTO `catalogue_entries` (`kind`, `told`) SELECT `kind`, `told` FROM `catalogue_texts`;
--> statement-breakpoint
-- Which estimates name a part of the catalogue.
CREATE TABLE `kind_uses` (
	`kind` text NOT NULL,
	`estimate_id` text NOT NULL,
	PRIMARY KEY(`kind`, `estimate_id`)
) STRICT;
--> statement-breakpoint
CREATE INDEX `kind_uses_estimate` ON `kind_uses` (`estimate_id`);
--> statement-breakpoint
CREATE TRIGGER `kind_uses_added` AFTER INSERT ON `estimates`
BEGIN
	INSERT OR IGNORE INTO `kind_uses` SELECT value ->> '$.part.kind', NEW.`id` FROM json_each(NEW.`input`, '$.items') WHERE value ->> '$.part.kind' IS NOT NULL;
END;
--> statement-breakpoint
CREATE TRIGGER `kind_uses_changed` AFTER UPDATE OF `input` ON `estimates`
BEGIN
	DELETE FROM `kind_uses` WHERE `estimate_id` = NEW.`id`;
	INSERT OR IGNORE INTO `kind_uses` SELECT value ->> '$.part.kind', NEW.`id` FROM json_each(NEW.`input`, '$.items') WHERE value ->> '$.part.kind' IS NOT NULL;
END;
--> statement-breakpoint
CREATE TRIGGER `kind_uses_removed` AFTER DELETE ON `estimates`
BEGIN
	DELETE FROM `kind_uses` WHERE `estimate_id` = OLD.`id`;
END;
--> statement-breakpoint
INSERT OR IGNORE INTO `kind_uses` SELECT value ->> '$.part.kind', e.`id` FROM `estimates` e, json_each(e.`input`, '$.items') WHERE value ->> '$.part.kind' IS NOT NULL;
--> statement-breakpoint
-- What came in never changes; its part is called by the one that it was merged into.
DROP TRIGGER `goods_in_stay`;
--> statement-breakpoint
CREATE TRIGGER `goods_in_stay` BEFORE UPDATE OF `id`, `at`, `by`, `received_on`, `source`, `state`, `pieces`, `currency`, `paid`, `freight`, `offer_id`, `order_line_id`, `note` ON `goods_in`
BEGIN SELECT RAISE(ABORT, 'goods in on record never change'); END;
--> statement-breakpoint
CREATE TRIGGER `goods_in_follow_their_part` BEFORE UPDATE OF `kind` ON `goods_in`
	WHEN (SELECT `withdrawal` ->> '$.into' FROM `part_kinds` WHERE `id` = OLD.`kind`) IS NOT NEW.`kind`
BEGIN SELECT RAISE(ABORT, 'goods in on record never change'); END;
