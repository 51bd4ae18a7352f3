CREATE TABLE `search_entries` (
	`id` integer PRIMARY KEY NOT NULL,
	`job_id` text NOT NULL,
	`who` text NOT NULL,
	`unit` text NOT NULL,
	`told` text NOT NULL,
	`codes` text NOT NULL,
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `search_entries_job` ON `search_entries` (`job_id`);
--> statement-breakpoint
CREATE VIRTUAL TABLE `search_words` USING fts5(`who`, `unit`, `told`, `codes`, content='search_entries', content_rowid='id', tokenize="unicode61 remove_diacritics 2", prefix='2 3');
--> statement-breakpoint
CREATE VIRTUAL TABLE `search_codes` USING fts5(`codes`, content='search_entries', content_rowid='id', tokenize='trigram');
--> statement-breakpoint
CREATE VIEW `search_texts` AS SELECT
	j.`id` AS `job_id`,
	concat_ws(' ', o.`name`, (SELECT group_concat(value, ' ') FROM json_each(o.`address`)), o.`email`) AS `who`,
	concat_ws(' ', u.`maker`, u.`model`) AS `unit`,
	concat_ws(' ', j.`reported`, j.`condition`, (SELECT group_concat(value, ' ') FROM json_each(j.`accessories`)), j.`notes`, u.`notes`, o.`notes`,
		(SELECT concat_ws(' ', json_extract(e.`input`, '$.unit.found'), (SELECT group_concat(json_extract(value, '$.reason'), ' ') FROM json_each(e.`input`, '$.items')))
			FROM `estimates` e WHERE e.`job_id` = j.`id` ORDER BY e.`revision` DESC LIMIT 1)) AS `told`,
	concat_ws(' ', printf('J-%d-%04d', j.`year`, j.`sequence`), u.`serial`, u.`model`, o.`phone`, o.`email`) AS `codes`
FROM `jobs` j JOIN `units` u ON u.`id` = j.`unit_id` JOIN `owners` o ON o.`id` = j.`owner_id`;
--> statement-breakpoint
CREATE TRIGGER `search_entry_added` AFTER INSERT ON `search_entries`
BEGIN
	INSERT INTO `search_words` (rowid, `who`, `unit`, `told`, `codes`) VALUES (NEW.`id`, NEW.`who`, NEW.`unit`, NEW.`told`, NEW.`codes`);
	INSERT INTO `search_codes` (rowid, `codes`) VALUES (NEW.`id`, NEW.`codes`);
END;
--> statement-breakpoint
CREATE TRIGGER `search_entry_changed` AFTER UPDATE ON `search_entries`
BEGIN
	INSERT INTO `search_words` (`search_words`, rowid, `who`, `unit`, `told`, `codes`) VALUES ('delete', OLD.`id`, OLD.`who`, OLD.`unit`, OLD.`told`, OLD.`codes`);
	INSERT INTO `search_words` (rowid, `who`, `unit`, `told`, `codes`) VALUES (NEW.`id`, NEW.`who`, NEW.`unit`, NEW.`told`, NEW.`codes`);
	INSERT INTO `search_codes` (`search_codes`, rowid, `codes`) VALUES ('delete', OLD.`id`, OLD.`codes`);
	INSERT INTO `search_codes` (rowid, `codes`) VALUES (NEW.`id`, NEW.`codes`);
END;
--> statement-breakpoint
CREATE TRIGGER `search_entry_removed` AFTER DELETE ON `search_entries`
BEGIN
	INSERT INTO `search_words` (`search_words`, rowid, `who`, `unit`, `told`, `codes`) VALUES ('delete', OLD.`id`, OLD.`who`, OLD.`unit`, OLD.`told`, OLD.`codes`);
	INSERT INTO `search_codes` (`search_codes`, rowid, `codes`) VALUES ('delete', OLD.`id`, OLD.`codes`);
END;
--> statement-breakpoint
CREATE TRIGGER `search_job_added` AFTER INSERT ON `jobs`
BEGIN
	INSERT INTO `search_entries` (`job_id`, `who`, `unit`, `told`, `codes`)
		SELECT `job_id`, `who`, `unit`, `told`, `codes` FROM `search_texts` WHERE `job_id` = NEW.`id`;
END;
--> statement-breakpoint
CREATE TRIGGER `search_job_changed` AFTER UPDATE ON `jobs`
BEGIN
	UPDATE `search_entries` SET (`who`, `unit`, `told`, `codes`) =
		(SELECT `who`, `unit`, `told`, `codes` FROM `search_texts` t WHERE t.`job_id` = `search_entries`.`job_id`)
		WHERE `job_id` = NEW.`id`;
END;
--> statement-breakpoint
CREATE TRIGGER `search_owner_changed` AFTER UPDATE ON `owners`
BEGIN
	UPDATE `search_entries` SET (`who`, `unit`, `told`, `codes`) =
		(SELECT `who`, `unit`, `told`, `codes` FROM `search_texts` t WHERE t.`job_id` = `search_entries`.`job_id`)
		WHERE `job_id` IN (SELECT `id` FROM `jobs` WHERE `owner_id` = NEW.`id`);
END;
--> statement-breakpoint
CREATE TRIGGER `search_unit_changed` AFTER UPDATE ON `units`
BEGIN
	UPDATE `search_entries` SET (`who`, `unit`, `told`, `codes`) =
		(SELECT `who`, `unit`, `told`, `codes` FROM `search_texts` t WHERE t.`job_id` = `search_entries`.`job_id`)
		WHERE `job_id` IN (SELECT `id` FROM `jobs` WHERE `unit_id` = NEW.`id`);
END;
--> statement-breakpoint
CREATE TRIGGER `search_estimate_added` AFTER INSERT ON `estimates`
BEGIN
	UPDATE `search_entries` SET (`who`, `unit`, `told`, `codes`) =
		(SELECT `who`, `unit`, `told`, `codes` FROM `search_texts` t WHERE t.`job_id` = `search_entries`.`job_id`)
		WHERE `job_id` = NEW.`job_id`;
END;
--> statement-breakpoint
CREATE TRIGGER `search_estimate_changed` AFTER UPDATE OF `input` ON `estimates`
BEGIN
	UPDATE `search_entries` SET (`who`, `unit`, `told`, `codes`) =
		(SELECT `who`, `unit`, `told`, `codes` FROM `search_texts` t WHERE t.`job_id` = `search_entries`.`job_id`)
		WHERE `job_id` = NEW.`job_id`;
END;
--> statement-breakpoint
INSERT INTO `search_entries` (`job_id`, `who`, `unit`, `told`, `codes`)
	SELECT `job_id`, `who`, `unit`, `told`, `codes` FROM `search_texts`;
