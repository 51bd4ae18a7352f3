-- Each row that no event tells of stands twice, so that verify sees where one of the two was changed. Triggers alone write the second.
CREATE TABLE `row_copies` (
	`of` text NOT NULL,
	`id` text NOT NULL,
	`body` text NOT NULL,
	PRIMARY KEY(`of`, `id`)
) STRICT;
--> statement-breakpoint
CREATE TRIGGER `rate_books_row_copied` AFTER INSERT ON `rate_books`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('rate_books', json_array(NEW.`id`, NEW.`version`), json_array(NEW.`name` || '', NEW.`in_force_from` || '', NEW.`book` || '', NEW.`created_at` || '', NEW.`updated_at` || ''))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `models_row_copied` AFTER INSERT ON `models`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('models', NEW.`id`, json_array(NEW.`version`, NEW.`created_at` || '', NEW.`updated_at` || '', NEW.`maker` || '', NEW.`model` || '', NEW.`map` || '', NEW.`hazards` || '', NEW.`notes` || ''))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `models_copy_moved` AFTER UPDATE OF `id`, `version`, `created_at`, `updated_at`, `maker`, `model`, `map`, `hazards`, `notes` ON `models`
BEGIN
	UPDATE `row_copies` SET `id` = NEW.`id`, `body` = json_array(iif(NEW.`version` IS OLD.`version`, `body` ->> 0, NEW.`version`), iif(NEW.`created_at` IS OLD.`created_at`, `body` ->> 1, NEW.`created_at` || ''), iif(NEW.`updated_at` IS OLD.`updated_at`, `body` ->> 2, NEW.`updated_at` || ''), iif(NEW.`maker` IS OLD.`maker`, `body` ->> 3, NEW.`maker` || ''), iif(NEW.`model` IS OLD.`model`, `body` ->> 4, NEW.`model` || ''), iif(NEW.`map` IS OLD.`map`, `body` ->> 5, NEW.`map` || ''), iif(NEW.`hazards` IS OLD.`hazards`, `body` ->> 6, NEW.`hazards` || ''), iif(NEW.`notes` IS OLD.`notes`, `body` ->> 7, NEW.`notes` || ''))
		WHERE `of` = 'models' AND `id` = OLD.`id` AND json_valid(`body`);
END;
--> statement-breakpoint
CREATE TRIGGER `models_copy_dropped` AFTER DELETE ON `models`
BEGIN
	DELETE FROM `row_copies` WHERE `of` = 'models' AND `id` = OLD.`id`;
END;
--> statement-breakpoint
CREATE TRIGGER `owners_row_copied` AFTER INSERT ON `owners`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('owners', NEW.`id`, json_array(NEW.`version`, NEW.`created_at` || '', NEW.`updated_at` || '', NEW.`name` || '', NEW.`address` || '', NEW.`phone` || '', NEW.`email` || '', NEW.`tax_number` || '', NEW.`registration` || '', NEW.`notes` || '', NEW.`language` || '', NEW.`locale` || ''))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `owners_copy_moved` AFTER UPDATE OF `id`, `version`, `created_at`, `updated_at`, `name`, `address`, `phone`, `email`, `tax_number`, `registration`, `notes`, `language`, `locale` ON `owners`
BEGIN
	UPDATE `row_copies` SET `id` = NEW.`id`, `body` = json_array(iif(NEW.`version` IS OLD.`version`, `body` ->> 0, NEW.`version`), iif(NEW.`created_at` IS OLD.`created_at`, `body` ->> 1, NEW.`created_at` || ''), iif(NEW.`updated_at` IS OLD.`updated_at`, `body` ->> 2, NEW.`updated_at` || ''), iif(NEW.`name` IS OLD.`name`, `body` ->> 3, NEW.`name` || ''), iif(NEW.`address` IS OLD.`address`, `body` ->> 4, NEW.`address` || ''), iif(NEW.`phone` IS OLD.`phone`, `body` ->> 5, NEW.`phone` || ''), iif(NEW.`email` IS OLD.`email`, `body` ->> 6, NEW.`email` || ''), iif(NEW.`tax_number` IS OLD.`tax_number`, `body` ->> 7, NEW.`tax_number` || ''), iif(NEW.`registration` IS OLD.`registration`, `body` ->> 8, NEW.`registration` || ''), iif(NEW.`notes` IS OLD.`notes`, `body` ->> 9, NEW.`notes` || ''), iif(NEW.`language` IS OLD.`language`, `body` ->> 10, NEW.`language` || ''), iif(NEW.`locale` IS OLD.`locale`, `body` ->> 11, NEW.`locale` || ''))
		WHERE `of` = 'owners' AND `id` = OLD.`id` AND json_valid(`body`);
END;
--> statement-breakpoint
CREATE TRIGGER `owners_copy_dropped` AFTER DELETE ON `owners`
BEGIN
	DELETE FROM `row_copies` WHERE `of` = 'owners' AND `id` = OLD.`id`;
END;
--> statement-breakpoint
CREATE TRIGGER `units_row_copied` AFTER INSERT ON `units`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('units', NEW.`id`, json_array(NEW.`version`, NEW.`created_at` || '', NEW.`updated_at` || '', NEW.`owner_id` || '', NEW.`model_id` || '', NEW.`maker` || '', NEW.`model` || '', NEW.`serial` || '', NEW.`declared_value`, NEW.`hazards` || '', NEW.`notes` || ''))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `units_copy_moved` AFTER UPDATE OF `id`, `version`, `created_at`, `updated_at`, `owner_id`, `model_id`, `maker`, `model`, `serial`, `declared_value`, `hazards`, `notes` ON `units`
BEGIN
	UPDATE `row_copies` SET `id` = NEW.`id`, `body` = json_array(iif(NEW.`version` IS OLD.`version`, `body` ->> 0, NEW.`version`), iif(NEW.`created_at` IS OLD.`created_at`, `body` ->> 1, NEW.`created_at` || ''), iif(NEW.`updated_at` IS OLD.`updated_at`, `body` ->> 2, NEW.`updated_at` || ''), iif(NEW.`owner_id` IS OLD.`owner_id`, `body` ->> 3, NEW.`owner_id` || ''), iif(NEW.`model_id` IS OLD.`model_id`, `body` ->> 4, NEW.`model_id` || ''), iif(NEW.`maker` IS OLD.`maker`, `body` ->> 5, NEW.`maker` || ''), iif(NEW.`model` IS OLD.`model`, `body` ->> 6, NEW.`model` || ''), iif(NEW.`serial` IS OLD.`serial`, `body` ->> 7, NEW.`serial` || ''), iif(NEW.`declared_value` IS OLD.`declared_value`, `body` ->> 8, NEW.`declared_value`), iif(NEW.`hazards` IS OLD.`hazards`, `body` ->> 9, NEW.`hazards` || ''), iif(NEW.`notes` IS OLD.`notes`, `body` ->> 10, NEW.`notes` || ''))
		WHERE `of` = 'units' AND `id` = OLD.`id` AND json_valid(`body`);
END;
--> statement-breakpoint
CREATE TRIGGER `units_copy_dropped` AFTER DELETE ON `units`
BEGIN
	DELETE FROM `row_copies` WHERE `of` = 'units' AND `id` = OLD.`id`;
END;
--> statement-breakpoint
CREATE TRIGGER `jobs_row_copied` AFTER INSERT ON `jobs`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('jobs', NEW.`id`, json_array(NEW.`version`, NEW.`created_at` || '', NEW.`updated_at` || '', NEW.`year`, NEW.`sequence`, NEW.`owner_id` || '', NEW.`unit_id` || '', NEW.`arrived_on` || '', NEW.`reported` || '', NEW.`condition` || '', NEW.`accessories` || '', NEW.`notes` || ''))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `jobs_copy_moved` AFTER UPDATE OF `id`, `version`, `created_at`, `updated_at`, `year`, `sequence`, `owner_id`, `unit_id`, `arrived_on`, `reported`, `condition`, `accessories`, `notes` ON `jobs`
BEGIN
	UPDATE `row_copies` SET `id` = NEW.`id`, `body` = json_array(iif(NEW.`version` IS OLD.`version`, `body` ->> 0, NEW.`version`), iif(NEW.`created_at` IS OLD.`created_at`, `body` ->> 1, NEW.`created_at` || ''), iif(NEW.`updated_at` IS OLD.`updated_at`, `body` ->> 2, NEW.`updated_at` || ''), iif(NEW.`year` IS OLD.`year`, `body` ->> 3, NEW.`year`), iif(NEW.`sequence` IS OLD.`sequence`, `body` ->> 4, NEW.`sequence`), iif(NEW.`owner_id` IS OLD.`owner_id`, `body` ->> 5, NEW.`owner_id` || ''), iif(NEW.`unit_id` IS OLD.`unit_id`, `body` ->> 6, NEW.`unit_id` || ''), iif(NEW.`arrived_on` IS OLD.`arrived_on`, `body` ->> 7, NEW.`arrived_on` || ''), iif(NEW.`reported` IS OLD.`reported`, `body` ->> 8, NEW.`reported` || ''), iif(NEW.`condition` IS OLD.`condition`, `body` ->> 9, NEW.`condition` || ''), iif(NEW.`accessories` IS OLD.`accessories`, `body` ->> 10, NEW.`accessories` || ''), iif(NEW.`notes` IS OLD.`notes`, `body` ->> 11, NEW.`notes` || ''))
		WHERE `of` = 'jobs' AND `id` = OLD.`id` AND json_valid(`body`);
END;
--> statement-breakpoint
CREATE TRIGGER `jobs_copy_dropped` AFTER DELETE ON `jobs`
BEGIN
	DELETE FROM `row_copies` WHERE `of` = 'jobs' AND `id` = OLD.`id`;
END;
--> statement-breakpoint
CREATE TRIGGER `estimates_row_copied` AFTER INSERT ON `estimates`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('estimates', NEW.`id`, json_array(NEW.`version`, NEW.`created_at` || '', NEW.`updated_at` || '', NEW.`job_id` || '', NEW.`revision`, NEW.`rate_book_id` || '', NEW.`rate_book_version`, NEW.`content_hash` || '', NEW.`issued_at` || '', NEW.`issued_by` || ''))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `estimates_copy_moved` AFTER UPDATE OF `id`, `version`, `created_at`, `updated_at`, `job_id`, `revision`, `rate_book_id`, `rate_book_version`, `content_hash`, `issued_at`, `issued_by` ON `estimates`
BEGIN
	UPDATE `row_copies` SET `id` = NEW.`id`, `body` = json_array(iif(NEW.`version` IS OLD.`version`, `body` ->> 0, NEW.`version`), iif(NEW.`created_at` IS OLD.`created_at`, `body` ->> 1, NEW.`created_at` || ''), iif(NEW.`updated_at` IS OLD.`updated_at`, `body` ->> 2, NEW.`updated_at` || ''), iif(NEW.`job_id` IS OLD.`job_id`, `body` ->> 3, NEW.`job_id` || ''), iif(NEW.`revision` IS OLD.`revision`, `body` ->> 4, NEW.`revision`), iif(NEW.`rate_book_id` IS OLD.`rate_book_id`, `body` ->> 5, NEW.`rate_book_id` || ''), iif(NEW.`rate_book_version` IS OLD.`rate_book_version`, `body` ->> 6, NEW.`rate_book_version`), iif(NEW.`content_hash` IS OLD.`content_hash`, `body` ->> 7, NEW.`content_hash` || ''), iif(NEW.`issued_at` IS OLD.`issued_at`, `body` ->> 8, NEW.`issued_at` || ''), iif(NEW.`issued_by` IS OLD.`issued_by`, `body` ->> 9, NEW.`issued_by` || ''))
		WHERE `of` = 'estimates' AND `id` = OLD.`id` AND json_valid(`body`);
END;
--> statement-breakpoint
CREATE TRIGGER `estimates_copy_dropped` AFTER DELETE ON `estimates`
BEGIN
	DELETE FROM `row_copies` WHERE `of` = 'estimates' AND `id` = OLD.`id`;
END;
--> statement-breakpoint
CREATE TRIGGER `staff_row_copied` AFTER INSERT ON `staff`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('staff', NEW.`id`, json_array(NEW.`version`, NEW.`created_at` || '', NEW.`updated_at` || '', NEW.`name` || '', NEW.`name_key` || '', NEW.`role` || '', NEW.`joined_at` || '', NEW.`left_at` || ''))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `staff_copy_moved` AFTER UPDATE OF `id`, `version`, `created_at`, `updated_at`, `name`, `name_key`, `role`, `joined_at`, `left_at` ON `staff`
BEGIN
	UPDATE `row_copies` SET `id` = NEW.`id`, `body` = json_array(iif(NEW.`version` IS OLD.`version`, `body` ->> 0, NEW.`version`), iif(NEW.`created_at` IS OLD.`created_at`, `body` ->> 1, NEW.`created_at` || ''), iif(NEW.`updated_at` IS OLD.`updated_at`, `body` ->> 2, NEW.`updated_at` || ''), iif(NEW.`name` IS OLD.`name`, `body` ->> 3, NEW.`name` || ''), iif(NEW.`name_key` IS OLD.`name_key`, `body` ->> 4, NEW.`name_key` || ''), iif(NEW.`role` IS OLD.`role`, `body` ->> 5, NEW.`role` || ''), iif(NEW.`joined_at` IS OLD.`joined_at`, `body` ->> 6, NEW.`joined_at` || ''), iif(NEW.`left_at` IS OLD.`left_at`, `body` ->> 7, NEW.`left_at` || ''))
		WHERE `of` = 'staff' AND `id` = OLD.`id` AND json_valid(`body`);
END;
--> statement-breakpoint
CREATE TRIGGER `staff_copy_dropped` AFTER DELETE ON `staff`
BEGIN
	DELETE FROM `row_copies` WHERE `of` = 'staff' AND `id` = OLD.`id`;
END;
--> statement-breakpoint
CREATE TRIGGER `api_tokens_row_copied` AFTER INSERT ON `api_tokens`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('api_tokens', NEW.`id`, json_array(NEW.`token_hash` || '', NEW.`staff_id` || '', NEW.`name` || '', NEW.`scopes` || '', NEW.`made_at` || '', NEW.`revoked_at` || ''))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `api_tokens_copy_moved` AFTER UPDATE OF `id`, `token_hash`, `staff_id`, `name`, `scopes`, `made_at`, `revoked_at` ON `api_tokens`
BEGIN
	UPDATE `row_copies` SET `id` = NEW.`id`, `body` = json_array(iif(NEW.`token_hash` IS OLD.`token_hash`, `body` ->> 0, NEW.`token_hash` || ''), iif(NEW.`staff_id` IS OLD.`staff_id`, `body` ->> 1, NEW.`staff_id` || ''), iif(NEW.`name` IS OLD.`name`, `body` ->> 2, NEW.`name` || ''), iif(NEW.`scopes` IS OLD.`scopes`, `body` ->> 3, NEW.`scopes` || ''), iif(NEW.`made_at` IS OLD.`made_at`, `body` ->> 4, NEW.`made_at` || ''), iif(NEW.`revoked_at` IS OLD.`revoked_at`, `body` ->> 5, NEW.`revoked_at` || ''))
		WHERE `of` = 'api_tokens' AND `id` = OLD.`id` AND json_valid(`body`);
END;
--> statement-breakpoint
CREATE TRIGGER `api_tokens_copy_dropped` AFTER DELETE ON `api_tokens`
BEGIN
	DELETE FROM `row_copies` WHERE `of` = 'api_tokens' AND `id` = OLD.`id`;
END;
--> statement-breakpoint
CREATE TRIGGER `part_kinds_row_copied` AFTER INSERT ON `part_kinds`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('part_kinds', NEW.`id`, json_array(NEW.`version`, NEW.`created_at` || '', NEW.`updated_at` || '', NEW.`type` || '', NEW.`name` || '', NEW.`value` || '', quote(NEW.`rated_volts`), quote(NEW.`tolerance_percent`), NEW.`form` || '', NEW.`audio_grade`, NEW.`leads`, NEW.`scarcity` || '', NEW.`notes` || '', NEW.`withdrawal` || ''))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `part_kinds_copy_moved` AFTER UPDATE OF `id`, `version`, `created_at`, `updated_at`, `type`, `name`, `value`, `rated_volts`, `tolerance_percent`, `form`, `audio_grade`, `leads`, `scarcity`, `notes`, `withdrawal` ON `part_kinds`
BEGIN
	UPDATE `row_copies` SET `id` = NEW.`id`, `body` = json_array(iif(NEW.`version` IS OLD.`version`, `body` ->> 0, NEW.`version`), iif(NEW.`created_at` IS OLD.`created_at`, `body` ->> 1, NEW.`created_at` || ''), iif(NEW.`updated_at` IS OLD.`updated_at`, `body` ->> 2, NEW.`updated_at` || ''), iif(NEW.`type` IS OLD.`type`, `body` ->> 3, NEW.`type` || ''), iif(NEW.`name` IS OLD.`name`, `body` ->> 4, NEW.`name` || ''), iif(NEW.`value` IS OLD.`value`, `body` ->> 5, NEW.`value` || ''), iif(NEW.`rated_volts` IS OLD.`rated_volts`, `body` ->> 6, quote(NEW.`rated_volts`)), iif(NEW.`tolerance_percent` IS OLD.`tolerance_percent`, `body` ->> 7, quote(NEW.`tolerance_percent`)), iif(NEW.`form` IS OLD.`form`, `body` ->> 8, NEW.`form` || ''), iif(NEW.`audio_grade` IS OLD.`audio_grade`, `body` ->> 9, NEW.`audio_grade`), iif(NEW.`leads` IS OLD.`leads`, `body` ->> 10, NEW.`leads`), iif(NEW.`scarcity` IS OLD.`scarcity`, `body` ->> 11, NEW.`scarcity` || ''), iif(NEW.`notes` IS OLD.`notes`, `body` ->> 12, NEW.`notes` || ''), iif(NEW.`withdrawal` IS OLD.`withdrawal`, `body` ->> 13, NEW.`withdrawal` || ''))
		WHERE `of` = 'part_kinds' AND `id` = OLD.`id` AND json_valid(`body`);
END;
--> statement-breakpoint
CREATE TRIGGER `part_kinds_copy_dropped` AFTER DELETE ON `part_kinds`
BEGIN
	DELETE FROM `row_copies` WHERE `of` = 'part_kinds' AND `id` = OLD.`id`;
END;
--> statement-breakpoint
CREATE TRIGGER `catalogue_entries_row_copied` AFTER INSERT ON `catalogue_entries`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('catalogue_entries', CAST(NEW.`id` AS TEXT), json_array(NEW.`kind` || ''))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `catalogue_entries_copy_moved` AFTER UPDATE OF `id`, `kind` ON `catalogue_entries`
BEGIN
	UPDATE `row_copies` SET `id` = CAST(NEW.`id` AS TEXT), `body` = json_array(iif(NEW.`kind` IS OLD.`kind`, `body` ->> 0, NEW.`kind` || ''))
		WHERE `of` = 'catalogue_entries' AND `id` = CAST(OLD.`id` AS TEXT) AND json_valid(`body`);
END;
--> statement-breakpoint
CREATE TRIGGER `catalogue_entries_copy_dropped` AFTER DELETE ON `catalogue_entries`
BEGIN
	DELETE FROM `row_copies` WHERE `of` = 'catalogue_entries' AND `id` = CAST(OLD.`id` AS TEXT);
END;
--> statement-breakpoint
CREATE TRIGGER `donors_row_copied` AFTER INSERT ON `donors`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('donors', NEW.`id`, json_array(NEW.`version`, NEW.`created_at` || '', NEW.`updated_at` || '', NEW.`maker` || '', NEW.`model` || '', NEW.`serial` || '', NEW.`bought_on` || '', NEW.`currency` || '', NEW.`cost`, NEW.`notes` || '', NEW.`withdrawal` || ''))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `donors_copy_moved` AFTER UPDATE OF `id`, `version`, `created_at`, `updated_at`, `maker`, `model`, `serial`, `bought_on`, `currency`, `cost`, `notes`, `withdrawal` ON `donors`
BEGIN
	UPDATE `row_copies` SET `id` = NEW.`id`, `body` = json_array(iif(NEW.`version` IS OLD.`version`, `body` ->> 0, NEW.`version`), iif(NEW.`created_at` IS OLD.`created_at`, `body` ->> 1, NEW.`created_at` || ''), iif(NEW.`updated_at` IS OLD.`updated_at`, `body` ->> 2, NEW.`updated_at` || ''), iif(NEW.`maker` IS OLD.`maker`, `body` ->> 3, NEW.`maker` || ''), iif(NEW.`model` IS OLD.`model`, `body` ->> 4, NEW.`model` || ''), iif(NEW.`serial` IS OLD.`serial`, `body` ->> 5, NEW.`serial` || ''), iif(NEW.`bought_on` IS OLD.`bought_on`, `body` ->> 6, NEW.`bought_on` || ''), iif(NEW.`currency` IS OLD.`currency`, `body` ->> 7, NEW.`currency` || ''), iif(NEW.`cost` IS OLD.`cost`, `body` ->> 8, NEW.`cost`), iif(NEW.`notes` IS OLD.`notes`, `body` ->> 9, NEW.`notes` || ''), iif(NEW.`withdrawal` IS OLD.`withdrawal`, `body` ->> 10, NEW.`withdrawal` || ''))
		WHERE `of` = 'donors' AND `id` = OLD.`id` AND json_valid(`body`);
END;
--> statement-breakpoint
CREATE TRIGGER `donors_copy_dropped` AFTER DELETE ON `donors`
BEGIN
	DELETE FROM `row_copies` WHERE `of` = 'donors' AND `id` = OLD.`id`;
END;
--> statement-breakpoint
CREATE TRIGGER `exchange_rates_row_copied` AFTER INSERT ON `exchange_rates`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('exchange_rates', NEW.`id`, json_array(NEW.`version`, NEW.`created_at` || '', NEW.`updated_at` || '', NEW.`currency` || '', NEW.`into_currency` || '', NEW.`rate` || '', NEW.`quoted_on` || '', NEW.`source` || '', NEW.`withdrawal` || ''))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `exchange_rates_copy_moved` AFTER UPDATE OF `id`, `version`, `created_at`, `updated_at`, `currency`, `into_currency`, `rate`, `quoted_on`, `source`, `withdrawal` ON `exchange_rates`
BEGIN
	UPDATE `row_copies` SET `id` = NEW.`id`, `body` = json_array(iif(NEW.`version` IS OLD.`version`, `body` ->> 0, NEW.`version`), iif(NEW.`created_at` IS OLD.`created_at`, `body` ->> 1, NEW.`created_at` || ''), iif(NEW.`updated_at` IS OLD.`updated_at`, `body` ->> 2, NEW.`updated_at` || ''), iif(NEW.`currency` IS OLD.`currency`, `body` ->> 3, NEW.`currency` || ''), iif(NEW.`into_currency` IS OLD.`into_currency`, `body` ->> 4, NEW.`into_currency` || ''), iif(NEW.`rate` IS OLD.`rate`, `body` ->> 5, NEW.`rate` || ''), iif(NEW.`quoted_on` IS OLD.`quoted_on`, `body` ->> 6, NEW.`quoted_on` || ''), iif(NEW.`source` IS OLD.`source`, `body` ->> 7, NEW.`source` || ''), iif(NEW.`withdrawal` IS OLD.`withdrawal`, `body` ->> 8, NEW.`withdrawal` || ''))
		WHERE `of` = 'exchange_rates' AND `id` = OLD.`id` AND json_valid(`body`);
END;
--> statement-breakpoint
CREATE TRIGGER `exchange_rates_copy_dropped` AFTER DELETE ON `exchange_rates`
BEGIN
	DELETE FROM `row_copies` WHERE `of` = 'exchange_rates' AND `id` = OLD.`id`;
END;
--> statement-breakpoint
CREATE TRIGGER `offers_row_copied` AFTER INSERT ON `offers`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('offers', NEW.`id`, json_array(NEW.`version`, NEW.`created_at` || '', NEW.`updated_at` || '', NEW.`kind` || '', NEW.`source` || '', NEW.`offered_on` || '', NEW.`currency` || '', NEW.`price`, NEW.`pack_size`, NEW.`minimum_packs`, NEW.`available`, NEW.`lead_days`, NEW.`state` || '', quote(NEW.`share_good`), NEW.`freight`, quote(NEW.`pull_minutes`), NEW.`seen_good` || '', NEW.`withdrawal` || '', NEW.`donor` || '', quote(NEW.`duty_percent`), quote(NEW.`import_tax_percent`), NEW.`parcel_fee`))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `offers_copy_moved` AFTER UPDATE OF `id`, `version`, `created_at`, `updated_at`, `kind`, `source`, `offered_on`, `currency`, `price`, `pack_size`, `minimum_packs`, `available`, `lead_days`, `state`, `share_good`, `freight`, `pull_minutes`, `seen_good`, `withdrawal`, `donor`, `duty_percent`, `import_tax_percent`, `parcel_fee` ON `offers`
BEGIN
	UPDATE `row_copies` SET `id` = NEW.`id`, `body` = json_array(iif(NEW.`version` IS OLD.`version`, `body` ->> 0, NEW.`version`), iif(NEW.`created_at` IS OLD.`created_at`, `body` ->> 1, NEW.`created_at` || ''), iif(NEW.`updated_at` IS OLD.`updated_at`, `body` ->> 2, NEW.`updated_at` || ''), iif(NEW.`kind` IS OLD.`kind`, `body` ->> 3, NEW.`kind` || ''), iif(NEW.`source` IS OLD.`source`, `body` ->> 4, NEW.`source` || ''), iif(NEW.`offered_on` IS OLD.`offered_on`, `body` ->> 5, NEW.`offered_on` || ''), iif(NEW.`currency` IS OLD.`currency`, `body` ->> 6, NEW.`currency` || ''), iif(NEW.`price` IS OLD.`price`, `body` ->> 7, NEW.`price`), iif(NEW.`pack_size` IS OLD.`pack_size`, `body` ->> 8, NEW.`pack_size`), iif(NEW.`minimum_packs` IS OLD.`minimum_packs`, `body` ->> 9, NEW.`minimum_packs`), iif(NEW.`available` IS OLD.`available`, `body` ->> 10, NEW.`available`), iif(NEW.`lead_days` IS OLD.`lead_days`, `body` ->> 11, NEW.`lead_days`), iif(NEW.`state` IS OLD.`state`, `body` ->> 12, NEW.`state` || ''), iif(NEW.`share_good` IS OLD.`share_good`, `body` ->> 13, quote(NEW.`share_good`)), iif(NEW.`freight` IS OLD.`freight`, `body` ->> 14, NEW.`freight`), iif(NEW.`pull_minutes` IS OLD.`pull_minutes`, `body` ->> 15, quote(NEW.`pull_minutes`)), iif(NEW.`seen_good` IS OLD.`seen_good`, `body` ->> 16, NEW.`seen_good` || ''), iif(NEW.`withdrawal` IS OLD.`withdrawal`, `body` ->> 17, NEW.`withdrawal` || ''), iif(NEW.`donor` IS OLD.`donor`, `body` ->> 18, NEW.`donor` || ''), iif(NEW.`duty_percent` IS OLD.`duty_percent`, `body` ->> 19, quote(NEW.`duty_percent`)), iif(NEW.`import_tax_percent` IS OLD.`import_tax_percent`, `body` ->> 20, quote(NEW.`import_tax_percent`)), iif(NEW.`parcel_fee` IS OLD.`parcel_fee`, `body` ->> 21, NEW.`parcel_fee`))
		WHERE `of` = 'offers' AND `id` = OLD.`id` AND json_valid(`body`);
END;
--> statement-breakpoint
CREATE TRIGGER `offers_copy_dropped` AFTER DELETE ON `offers`
BEGIN
	DELETE FROM `row_copies` WHERE `of` = 'offers' AND `id` = OLD.`id`;
END;
--> statement-breakpoint
CREATE TRIGGER `orders_row_copied` AFTER INSERT ON `orders`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('orders', NEW.`id`, json_array(NEW.`at` || '', NEW.`by` || '', NEW.`source` || '', NEW.`ordered_on` || '', NEW.`currency` || '', NEW.`freight`, NEW.`note` || ''))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `order_lines_row_copied` AFTER INSERT ON `order_lines`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('order_lines', NEW.`id`, json_array(NEW.`order_id` || '', NEW.`kind` || '', NEW.`offer_id` || '', NEW.`packs`, NEW.`pack_size`, NEW.`price`, NEW.`pieces`, NEW.`jobs` || ''))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `order_lines_copy_moved` AFTER UPDATE OF `id`, `order_id`, `kind`, `offer_id`, `packs`, `pack_size`, `price`, `pieces`, `jobs` ON `order_lines`
BEGIN
	UPDATE `row_copies` SET `id` = NEW.`id`, `body` = json_array(iif(NEW.`order_id` IS OLD.`order_id`, `body` ->> 0, NEW.`order_id` || ''), iif(NEW.`kind` IS OLD.`kind`, `body` ->> 1, NEW.`kind` || ''), iif(NEW.`offer_id` IS OLD.`offer_id`, `body` ->> 2, NEW.`offer_id` || ''), iif(NEW.`packs` IS OLD.`packs`, `body` ->> 3, NEW.`packs`), iif(NEW.`pack_size` IS OLD.`pack_size`, `body` ->> 4, NEW.`pack_size`), iif(NEW.`price` IS OLD.`price`, `body` ->> 5, NEW.`price`), iif(NEW.`pieces` IS OLD.`pieces`, `body` ->> 6, NEW.`pieces`), iif(NEW.`jobs` IS OLD.`jobs`, `body` ->> 7, NEW.`jobs` || ''))
		WHERE `of` = 'order_lines' AND `id` = OLD.`id` AND json_valid(`body`);
END;
--> statement-breakpoint
CREATE TRIGGER `order_lines_copy_dropped` AFTER DELETE ON `order_lines`
BEGIN
	DELETE FROM `row_copies` WHERE `of` = 'order_lines' AND `id` = OLD.`id`;
END;
--> statement-breakpoint
CREATE TRIGGER `goods_in_row_copied` AFTER INSERT ON `goods_in`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('goods_in', NEW.`id`, json_array(NEW.`at` || '', NEW.`by` || '', NEW.`received_on` || '', NEW.`kind` || '', NEW.`source` || '', NEW.`state` || '', NEW.`pieces`, NEW.`currency` || '', NEW.`paid`, NEW.`freight`, NEW.`offer_id` || '', NEW.`order_line_id` || '', NEW.`note` || ''))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `goods_in_copy_moved` AFTER UPDATE OF `id`, `at`, `by`, `received_on`, `kind`, `source`, `state`, `pieces`, `currency`, `paid`, `freight`, `offer_id`, `order_line_id`, `note` ON `goods_in`
BEGIN
	UPDATE `row_copies` SET `id` = NEW.`id`, `body` = json_array(iif(NEW.`at` IS OLD.`at`, `body` ->> 0, NEW.`at` || ''), iif(NEW.`by` IS OLD.`by`, `body` ->> 1, NEW.`by` || ''), iif(NEW.`received_on` IS OLD.`received_on`, `body` ->> 2, NEW.`received_on` || ''), iif(NEW.`kind` IS OLD.`kind`, `body` ->> 3, NEW.`kind` || ''), iif(NEW.`source` IS OLD.`source`, `body` ->> 4, NEW.`source` || ''), iif(NEW.`state` IS OLD.`state`, `body` ->> 5, NEW.`state` || ''), iif(NEW.`pieces` IS OLD.`pieces`, `body` ->> 6, NEW.`pieces`), iif(NEW.`currency` IS OLD.`currency`, `body` ->> 7, NEW.`currency` || ''), iif(NEW.`paid` IS OLD.`paid`, `body` ->> 8, NEW.`paid`), iif(NEW.`freight` IS OLD.`freight`, `body` ->> 9, NEW.`freight`), iif(NEW.`offer_id` IS OLD.`offer_id`, `body` ->> 10, NEW.`offer_id` || ''), iif(NEW.`order_line_id` IS OLD.`order_line_id`, `body` ->> 11, NEW.`order_line_id` || ''), iif(NEW.`note` IS OLD.`note`, `body` ->> 12, NEW.`note` || ''))
		WHERE `of` = 'goods_in' AND `id` = OLD.`id` AND json_valid(`body`);
END;
--> statement-breakpoint
CREATE TRIGGER `goods_in_copy_dropped` AFTER DELETE ON `goods_in`
BEGIN
	DELETE FROM `row_copies` WHERE `of` = 'goods_in' AND `id` = OLD.`id`;
END;
--> statement-breakpoint
CREATE TRIGGER `goods_in_tests_row_copied` AFTER INSERT ON `goods_in_tests`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('goods_in_tests', NEW.`id`, json_array(NEW.`goods_in_id` || '', NEW.`at` || '', NEW.`by` || '', NEW.`good`, NEW.`bad`))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `invitations_row_copied` AFTER INSERT ON `invitations`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('invitations', NEW.`id`, json_array(NEW.`secret_hash` || '', NEW.`staff_id` || '', NEW.`made_by` || '', NEW.`made_at` || '', NEW.`expires_at` || '', NEW.`used_at` || ''))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `invitations_copy_moved` AFTER UPDATE OF `id`, `secret_hash`, `staff_id`, `made_by`, `made_at`, `expires_at`, `used_at` ON `invitations`
BEGIN
	UPDATE `row_copies` SET `id` = NEW.`id`, `body` = json_array(iif(NEW.`secret_hash` IS OLD.`secret_hash`, `body` ->> 0, NEW.`secret_hash` || ''), iif(NEW.`staff_id` IS OLD.`staff_id`, `body` ->> 1, NEW.`staff_id` || ''), iif(NEW.`made_by` IS OLD.`made_by`, `body` ->> 2, NEW.`made_by` || ''), iif(NEW.`made_at` IS OLD.`made_at`, `body` ->> 3, NEW.`made_at` || ''), iif(NEW.`expires_at` IS OLD.`expires_at`, `body` ->> 4, NEW.`expires_at` || ''), iif(NEW.`used_at` IS OLD.`used_at`, `body` ->> 5, NEW.`used_at` || ''))
		WHERE `of` = 'invitations' AND `id` = OLD.`id` AND json_valid(`body`);
END;
--> statement-breakpoint
CREATE TRIGGER `invitations_copy_dropped` AFTER DELETE ON `invitations`
BEGIN
	DELETE FROM `row_copies` WHERE `of` = 'invitations' AND `id` = OLD.`id`;
END;
--> statement-breakpoint
CREATE TRIGGER `logos_row_copied` AFTER INSERT ON `logos`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('logos', NEW.`id`, json_array(NEW.`added_at` || '', NEW.`kind` || '', NEW.`width`, NEW.`height`))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `logos_copy_moved` AFTER UPDATE OF `id`, `added_at`, `kind`, `width`, `height` ON `logos`
BEGIN
	UPDATE `row_copies` SET `id` = NEW.`id`, `body` = json_array(iif(NEW.`added_at` IS OLD.`added_at`, `body` ->> 0, NEW.`added_at` || ''), iif(NEW.`kind` IS OLD.`kind`, `body` ->> 1, NEW.`kind` || ''), iif(NEW.`width` IS OLD.`width`, `body` ->> 2, NEW.`width`), iif(NEW.`height` IS OLD.`height`, `body` ->> 3, NEW.`height`))
		WHERE `of` = 'logos' AND `id` = OLD.`id` AND json_valid(`body`);
END;
--> statement-breakpoint
CREATE TRIGGER `logos_copy_dropped` AFTER DELETE ON `logos`
BEGIN
	DELETE FROM `row_copies` WHERE `of` = 'logos' AND `id` = OLD.`id`;
END;
--> statement-breakpoint
CREATE TRIGGER `mappings_row_copied` AFTER INSERT ON `mappings`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('mappings', NEW.`id`, json_array(NEW.`version`, NEW.`created_at` || '', NEW.`updated_at` || '', NEW.`what` || '', NEW.`headings` || '', NEW.`fields` || '', NEW.`types` || '', NEW.`mark` || ''))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `mappings_copy_moved` AFTER UPDATE OF `id`, `version`, `created_at`, `updated_at`, `what`, `headings`, `fields`, `types`, `mark` ON `mappings`
BEGIN
	UPDATE `row_copies` SET `id` = NEW.`id`, `body` = json_array(iif(NEW.`version` IS OLD.`version`, `body` ->> 0, NEW.`version`), iif(NEW.`created_at` IS OLD.`created_at`, `body` ->> 1, NEW.`created_at` || ''), iif(NEW.`updated_at` IS OLD.`updated_at`, `body` ->> 2, NEW.`updated_at` || ''), iif(NEW.`what` IS OLD.`what`, `body` ->> 3, NEW.`what` || ''), iif(NEW.`headings` IS OLD.`headings`, `body` ->> 4, NEW.`headings` || ''), iif(NEW.`fields` IS OLD.`fields`, `body` ->> 5, NEW.`fields` || ''), iif(NEW.`types` IS OLD.`types`, `body` ->> 6, NEW.`types` || ''), iif(NEW.`mark` IS OLD.`mark`, `body` ->> 7, NEW.`mark` || ''))
		WHERE `of` = 'mappings' AND `id` = OLD.`id` AND json_valid(`body`);
END;
--> statement-breakpoint
CREATE TRIGGER `mappings_copy_dropped` AFTER DELETE ON `mappings`
BEGIN
	DELETE FROM `row_copies` WHERE `of` = 'mappings' AND `id` = OLD.`id`;
END;
--> statement-breakpoint
CREATE TRIGGER `observations_row_copied` AFTER INSERT ON `observations`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('observations', json_array(NEW.`job_id`, NEW.`rate_book_id`, NEW.`rate_book_version`, NEW.`line`, NEW.`standard`), json_array(NEW.`closed_on` || '', NEW.`model` || '', NEW.`grade` || '', quote(NEW.`minutes`), quote(NEW.`low`), quote(NEW.`likely`), quote(NEW.`high`), quote(NEW.`own_low`), quote(NEW.`own_likely`), quote(NEW.`own_high`), NEW.`rate_per_hour`))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `observations_copy_moved` AFTER UPDATE OF `job_id`, `rate_book_id`, `rate_book_version`, `line`, `standard`, `closed_on`, `model`, `grade`, `minutes`, `low`, `likely`, `high`, `own_low`, `own_likely`, `own_high`, `rate_per_hour` ON `observations`
BEGIN
	UPDATE `row_copies` SET `id` = json_array(NEW.`job_id`, NEW.`rate_book_id`, NEW.`rate_book_version`, NEW.`line`, NEW.`standard`), `body` = json_array(iif(NEW.`closed_on` IS OLD.`closed_on`, `body` ->> 0, NEW.`closed_on` || ''), iif(NEW.`model` IS OLD.`model`, `body` ->> 1, NEW.`model` || ''), iif(NEW.`grade` IS OLD.`grade`, `body` ->> 2, NEW.`grade` || ''), iif(NEW.`minutes` IS OLD.`minutes`, `body` ->> 3, quote(NEW.`minutes`)), iif(NEW.`low` IS OLD.`low`, `body` ->> 4, quote(NEW.`low`)), iif(NEW.`likely` IS OLD.`likely`, `body` ->> 5, quote(NEW.`likely`)), iif(NEW.`high` IS OLD.`high`, `body` ->> 6, quote(NEW.`high`)), iif(NEW.`own_low` IS OLD.`own_low`, `body` ->> 7, quote(NEW.`own_low`)), iif(NEW.`own_likely` IS OLD.`own_likely`, `body` ->> 8, quote(NEW.`own_likely`)), iif(NEW.`own_high` IS OLD.`own_high`, `body` ->> 9, quote(NEW.`own_high`)), iif(NEW.`rate_per_hour` IS OLD.`rate_per_hour`, `body` ->> 10, NEW.`rate_per_hour`))
		WHERE `of` = 'observations' AND `id` = json_array(OLD.`job_id`, OLD.`rate_book_id`, OLD.`rate_book_version`, OLD.`line`, OLD.`standard`) AND json_valid(`body`);
END;
--> statement-breakpoint
CREATE TRIGGER `observations_copy_dropped` AFTER DELETE ON `observations`
BEGIN
	DELETE FROM `row_copies` WHERE `of` = 'observations' AND `id` = json_array(OLD.`job_id`, OLD.`rate_book_id`, OLD.`rate_book_version`, OLD.`line`, OLD.`standard`);
END;
--> statement-breakpoint
CREATE TRIGGER `observed_row_copied` AFTER INSERT ON `observed`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('observed', json_array(NEW.`job_id`, NEW.`rate_book_id`, NEW.`rate_book_version`), json_array())
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `observed_copy_moved` AFTER UPDATE OF `job_id`, `rate_book_id`, `rate_book_version` ON `observed`
BEGIN
	UPDATE `row_copies` SET `id` = json_array(NEW.`job_id`, NEW.`rate_book_id`, NEW.`rate_book_version`), `body` = json_array()
		WHERE `of` = 'observed' AND `id` = json_array(OLD.`job_id`, OLD.`rate_book_id`, OLD.`rate_book_version`) AND json_valid(`body`);
END;
--> statement-breakpoint
CREATE TRIGGER `observed_copy_dropped` AFTER DELETE ON `observed`
BEGIN
	DELETE FROM `row_copies` WHERE `of` = 'observed' AND `id` = json_array(OLD.`job_id`, OLD.`rate_book_id`, OLD.`rate_book_version`);
END;
--> statement-breakpoint
CREATE TRIGGER `open_needs_row_copied` AFTER INSERT ON `open_needs`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('open_needs', NEW.`job_id`, json_array(NEW.`answer_id` || '', NEW.`needs` || ''))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `open_needs_copy_moved` AFTER UPDATE OF `job_id`, `answer_id`, `needs` ON `open_needs`
BEGIN
	UPDATE `row_copies` SET `id` = NEW.`job_id`, `body` = json_array(iif(NEW.`answer_id` IS OLD.`answer_id`, `body` ->> 0, NEW.`answer_id` || ''), iif(NEW.`needs` IS OLD.`needs`, `body` ->> 1, NEW.`needs` || ''))
		WHERE `of` = 'open_needs' AND `id` = OLD.`job_id` AND json_valid(`body`);
END;
--> statement-breakpoint
CREATE TRIGGER `open_needs_copy_dropped` AFTER DELETE ON `open_needs`
BEGIN
	DELETE FROM `row_copies` WHERE `of` = 'open_needs' AND `id` = OLD.`job_id`;
END;
--> statement-breakpoint
CREATE TRIGGER `order_endings_row_copied` AFTER INSERT ON `order_endings`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('order_endings', NEW.`id`, json_array(NEW.`at` || '', NEW.`by` || '', NEW.`reason` || ''))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `outcomes_row_copied` AFTER INSERT ON `outcomes`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('outcomes', NEW.`job_id`, json_array(NEW.`close_out_id` || '', NEW.`closed_on` || '', NEW.`month` || '', NEW.`model` || '', NEW.`currency` || '', NEW.`quoted_total`, NEW.`agreed_total`, NEW.`billed_total`, NEW.`revenue`, NEW.`cost`, NEW.`planned_margin`, NEW.`p50`, NEW.`p80`, NEW.`actual`, quote(NEW.`agreed_minutes`), quote(NEW.`allowed_minutes`), quote(NEW.`actual_minutes`), NEW.`declined`))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `outcomes_copy_moved` AFTER UPDATE OF `job_id`, `close_out_id`, `closed_on`, `month`, `model`, `currency`, `quoted_total`, `agreed_total`, `billed_total`, `revenue`, `cost`, `planned_margin`, `p50`, `p80`, `actual`, `agreed_minutes`, `allowed_minutes`, `actual_minutes`, `declined` ON `outcomes`
BEGIN
	UPDATE `row_copies` SET `id` = NEW.`job_id`, `body` = json_array(iif(NEW.`close_out_id` IS OLD.`close_out_id`, `body` ->> 0, NEW.`close_out_id` || ''), iif(NEW.`closed_on` IS OLD.`closed_on`, `body` ->> 1, NEW.`closed_on` || ''), iif(NEW.`month` IS OLD.`month`, `body` ->> 2, NEW.`month` || ''), iif(NEW.`model` IS OLD.`model`, `body` ->> 3, NEW.`model` || ''), iif(NEW.`currency` IS OLD.`currency`, `body` ->> 4, NEW.`currency` || ''), iif(NEW.`quoted_total` IS OLD.`quoted_total`, `body` ->> 5, NEW.`quoted_total`), iif(NEW.`agreed_total` IS OLD.`agreed_total`, `body` ->> 6, NEW.`agreed_total`), iif(NEW.`billed_total` IS OLD.`billed_total`, `body` ->> 7, NEW.`billed_total`), iif(NEW.`revenue` IS OLD.`revenue`, `body` ->> 8, NEW.`revenue`), iif(NEW.`cost` IS OLD.`cost`, `body` ->> 9, NEW.`cost`), iif(NEW.`planned_margin` IS OLD.`planned_margin`, `body` ->> 10, NEW.`planned_margin`), iif(NEW.`p50` IS OLD.`p50`, `body` ->> 11, NEW.`p50`), iif(NEW.`p80` IS OLD.`p80`, `body` ->> 12, NEW.`p80`), iif(NEW.`actual` IS OLD.`actual`, `body` ->> 13, NEW.`actual`), iif(NEW.`agreed_minutes` IS OLD.`agreed_minutes`, `body` ->> 14, quote(NEW.`agreed_minutes`)), iif(NEW.`allowed_minutes` IS OLD.`allowed_minutes`, `body` ->> 15, quote(NEW.`allowed_minutes`)), iif(NEW.`actual_minutes` IS OLD.`actual_minutes`, `body` ->> 16, quote(NEW.`actual_minutes`)), iif(NEW.`declined` IS OLD.`declined`, `body` ->> 17, NEW.`declined`))
		WHERE `of` = 'outcomes' AND `id` = OLD.`job_id` AND json_valid(`body`);
END;
--> statement-breakpoint
CREATE TRIGGER `outcomes_copy_dropped` AFTER DELETE ON `outcomes`
BEGIN
	DELETE FROM `row_copies` WHERE `of` = 'outcomes' AND `id` = OLD.`job_id`;
END;
--> statement-breakpoint
CREATE TRIGGER `passkeys_row_copied` AFTER INSERT ON `passkeys`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('passkeys', NEW.`id`, json_array(NEW.`staff_id` || '', NEW.`name` || '', NEW.`site` || '', NEW.`public_key` || '', NEW.`counter`, NEW.`transports` || '', NEW.`made_at` || '', NEW.`used_at` || ''))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `passkeys_copy_moved` AFTER UPDATE OF `id`, `staff_id`, `name`, `site`, `public_key`, `counter`, `transports`, `made_at`, `used_at` ON `passkeys`
BEGIN
	UPDATE `row_copies` SET `id` = NEW.`id`, `body` = json_array(iif(NEW.`staff_id` IS OLD.`staff_id`, `body` ->> 0, NEW.`staff_id` || ''), iif(NEW.`name` IS OLD.`name`, `body` ->> 1, NEW.`name` || ''), iif(NEW.`site` IS OLD.`site`, `body` ->> 2, NEW.`site` || ''), iif(NEW.`public_key` IS OLD.`public_key`, `body` ->> 3, NEW.`public_key` || ''), iif(NEW.`counter` IS OLD.`counter`, `body` ->> 4, NEW.`counter`), iif(NEW.`transports` IS OLD.`transports`, `body` ->> 5, NEW.`transports` || ''), iif(NEW.`made_at` IS OLD.`made_at`, `body` ->> 6, NEW.`made_at` || ''), iif(NEW.`used_at` IS OLD.`used_at`, `body` ->> 7, NEW.`used_at` || ''))
		WHERE `of` = 'passkeys' AND `id` = OLD.`id` AND json_valid(`body`);
END;
--> statement-breakpoint
CREATE TRIGGER `passkeys_copy_dropped` AFTER DELETE ON `passkeys`
BEGIN
	DELETE FROM `row_copies` WHERE `of` = 'passkeys' AND `id` = OLD.`id`;
END;
--> statement-breakpoint
CREATE TRIGGER `passphrases_row_copied` AFTER INSERT ON `passphrases`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('passphrases', NEW.`staff_id`, json_array(NEW.`n`, NEW.`r`, NEW.`p`, NEW.`salt` || '', NEW.`hash` || '', NEW.`set_at` || ''))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `passphrases_copy_moved` AFTER UPDATE OF `staff_id`, `n`, `r`, `p`, `salt`, `hash`, `set_at` ON `passphrases`
BEGIN
	UPDATE `row_copies` SET `id` = NEW.`staff_id`, `body` = json_array(iif(NEW.`n` IS OLD.`n`, `body` ->> 0, NEW.`n`), iif(NEW.`r` IS OLD.`r`, `body` ->> 1, NEW.`r`), iif(NEW.`p` IS OLD.`p`, `body` ->> 2, NEW.`p`), iif(NEW.`salt` IS OLD.`salt`, `body` ->> 3, NEW.`salt` || ''), iif(NEW.`hash` IS OLD.`hash`, `body` ->> 4, NEW.`hash` || ''), iif(NEW.`set_at` IS OLD.`set_at`, `body` ->> 5, NEW.`set_at` || ''))
		WHERE `of` = 'passphrases' AND `id` = OLD.`staff_id` AND json_valid(`body`);
END;
--> statement-breakpoint
CREATE TRIGGER `passphrases_copy_dropped` AFTER DELETE ON `passphrases`
BEGIN
	DELETE FROM `row_copies` WHERE `of` = 'passphrases' AND `id` = OLD.`staff_id`;
END;
--> statement-breakpoint
CREATE TRIGGER `recovery_codes_row_copied` AFTER INSERT ON `recovery_codes`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('recovery_codes', NEW.`code_hash`, json_array(NEW.`staff_id` || '', NEW.`made_at` || '', NEW.`used_at` || ''))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `recovery_codes_copy_moved` AFTER UPDATE OF `code_hash`, `staff_id`, `made_at`, `used_at` ON `recovery_codes`
BEGIN
	UPDATE `row_copies` SET `id` = NEW.`code_hash`, `body` = json_array(iif(NEW.`staff_id` IS OLD.`staff_id`, `body` ->> 0, NEW.`staff_id` || ''), iif(NEW.`made_at` IS OLD.`made_at`, `body` ->> 1, NEW.`made_at` || ''), iif(NEW.`used_at` IS OLD.`used_at`, `body` ->> 2, NEW.`used_at` || ''))
		WHERE `of` = 'recovery_codes' AND `id` = OLD.`code_hash` AND json_valid(`body`);
END;
--> statement-breakpoint
CREATE TRIGGER `recovery_codes_copy_dropped` AFTER DELETE ON `recovery_codes`
BEGIN
	DELETE FROM `row_copies` WHERE `of` = 'recovery_codes' AND `id` = OLD.`code_hash`;
END;
--> statement-breakpoint
CREATE TRIGGER `search_entries_row_copied` AFTER INSERT ON `search_entries`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('search_entries', CAST(NEW.`id` AS TEXT), json_array(NEW.`job_id` || ''))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `search_entries_copy_moved` AFTER UPDATE OF `id`, `job_id` ON `search_entries`
BEGIN
	UPDATE `row_copies` SET `id` = CAST(NEW.`id` AS TEXT), `body` = json_array(iif(NEW.`job_id` IS OLD.`job_id`, `body` ->> 0, NEW.`job_id` || ''))
		WHERE `of` = 'search_entries' AND `id` = CAST(OLD.`id` AS TEXT) AND json_valid(`body`);
END;
--> statement-breakpoint
CREATE TRIGGER `search_entries_copy_dropped` AFTER DELETE ON `search_entries`
BEGIN
	DELETE FROM `row_copies` WHERE `of` = 'search_entries' AND `id` = CAST(OLD.`id` AS TEXT);
END;
--> statement-breakpoint
CREATE TRIGGER `send_attempts_row_copied` AFTER INSERT ON `send_attempts`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('send_attempts', NEW.`id`, json_array(NEW.`at` || '', NEW.`job_id` || '', NEW.`status`, NEW.`failure` || ''))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `send_attempts_copy_moved` AFTER UPDATE OF `id`, `at`, `job_id`, `status`, `failure` ON `send_attempts`
BEGIN
	UPDATE `row_copies` SET `id` = NEW.`id`, `body` = json_array(iif(NEW.`at` IS OLD.`at`, `body` ->> 0, NEW.`at` || ''), iif(NEW.`job_id` IS OLD.`job_id`, `body` ->> 1, NEW.`job_id` || ''), iif(NEW.`status` IS OLD.`status`, `body` ->> 2, NEW.`status`), iif(NEW.`failure` IS OLD.`failure`, `body` ->> 3, NEW.`failure` || ''))
		WHERE `of` = 'send_attempts' AND `id` = OLD.`id` AND json_valid(`body`);
END;
--> statement-breakpoint
CREATE TRIGGER `send_attempts_copy_dropped` AFTER DELETE ON `send_attempts`
BEGIN
	DELETE FROM `row_copies` WHERE `of` = 'send_attempts' AND `id` = OLD.`id`;
END;
--> statement-breakpoint
CREATE TRIGGER `send_hooks_row_copied` AFTER INSERT ON `send_hooks`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('send_hooks', NEW.`id`, json_array(NEW.`version`, NEW.`created_at` || '', NEW.`updated_at` || '', NEW.`url` || '', NEW.`secret` || ''))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `send_hooks_copy_moved` AFTER UPDATE OF `id`, `version`, `created_at`, `updated_at`, `url`, `secret` ON `send_hooks`
BEGIN
	UPDATE `row_copies` SET `id` = NEW.`id`, `body` = json_array(iif(NEW.`version` IS OLD.`version`, `body` ->> 0, NEW.`version`), iif(NEW.`created_at` IS OLD.`created_at`, `body` ->> 1, NEW.`created_at` || ''), iif(NEW.`updated_at` IS OLD.`updated_at`, `body` ->> 2, NEW.`updated_at` || ''), iif(NEW.`url` IS OLD.`url`, `body` ->> 3, NEW.`url` || ''), iif(NEW.`secret` IS OLD.`secret`, `body` ->> 4, NEW.`secret` || ''))
		WHERE `of` = 'send_hooks' AND `id` = OLD.`id` AND json_valid(`body`);
END;
--> statement-breakpoint
CREATE TRIGGER `send_hooks_copy_dropped` AFTER DELETE ON `send_hooks`
BEGIN
	DELETE FROM `row_copies` WHERE `of` = 'send_hooks' AND `id` = OLD.`id`;
END;
--> statement-breakpoint
CREATE TRIGGER `settings_row_copied` AFTER INSERT ON `settings`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('settings', NEW.`id`, json_array(NEW.`version`, NEW.`created_at` || '', NEW.`updated_at` || '', NEW.`name` || '', NEW.`address` || '', NEW.`phone` || '', NEW.`email` || '', NEW.`tax_number` || '', NEW.`registration` || '', NEW.`currency` || '', NEW.`locale` || '', NEW.`time_zone` || '', NEW.`paper` || '', NEW.`terms` || '', NEW.`rate_book_id` || '', NEW.`bench_queue_days`, NEW.`profile_terms` || '', NEW.`language` || '', NEW.`footer` || '', NEW.`logo` || '', NEW.`link_days`, NEW.`warranty_days`, NEW.`detail` || '', NEW.`names` || ''))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `settings_copy_moved` AFTER UPDATE OF `id`, `version`, `created_at`, `updated_at`, `name`, `address`, `phone`, `email`, `tax_number`, `registration`, `currency`, `locale`, `time_zone`, `paper`, `terms`, `rate_book_id`, `bench_queue_days`, `profile_terms`, `language`, `footer`, `logo`, `link_days`, `warranty_days`, `detail`, `names` ON `settings`
BEGIN
	UPDATE `row_copies` SET `id` = NEW.`id`, `body` = json_array(iif(NEW.`version` IS OLD.`version`, `body` ->> 0, NEW.`version`), iif(NEW.`created_at` IS OLD.`created_at`, `body` ->> 1, NEW.`created_at` || ''), iif(NEW.`updated_at` IS OLD.`updated_at`, `body` ->> 2, NEW.`updated_at` || ''), iif(NEW.`name` IS OLD.`name`, `body` ->> 3, NEW.`name` || ''), iif(NEW.`address` IS OLD.`address`, `body` ->> 4, NEW.`address` || ''), iif(NEW.`phone` IS OLD.`phone`, `body` ->> 5, NEW.`phone` || ''), iif(NEW.`email` IS OLD.`email`, `body` ->> 6, NEW.`email` || ''), iif(NEW.`tax_number` IS OLD.`tax_number`, `body` ->> 7, NEW.`tax_number` || ''), iif(NEW.`registration` IS OLD.`registration`, `body` ->> 8, NEW.`registration` || ''), iif(NEW.`currency` IS OLD.`currency`, `body` ->> 9, NEW.`currency` || ''), iif(NEW.`locale` IS OLD.`locale`, `body` ->> 10, NEW.`locale` || ''), iif(NEW.`time_zone` IS OLD.`time_zone`, `body` ->> 11, NEW.`time_zone` || ''), iif(NEW.`paper` IS OLD.`paper`, `body` ->> 12, NEW.`paper` || ''), iif(NEW.`terms` IS OLD.`terms`, `body` ->> 13, NEW.`terms` || ''), iif(NEW.`rate_book_id` IS OLD.`rate_book_id`, `body` ->> 14, NEW.`rate_book_id` || ''), iif(NEW.`bench_queue_days` IS OLD.`bench_queue_days`, `body` ->> 15, NEW.`bench_queue_days`), iif(NEW.`profile_terms` IS OLD.`profile_terms`, `body` ->> 16, NEW.`profile_terms` || ''), iif(NEW.`language` IS OLD.`language`, `body` ->> 17, NEW.`language` || ''), iif(NEW.`footer` IS OLD.`footer`, `body` ->> 18, NEW.`footer` || ''), iif(NEW.`logo` IS OLD.`logo`, `body` ->> 19, NEW.`logo` || ''), iif(NEW.`link_days` IS OLD.`link_days`, `body` ->> 20, NEW.`link_days`), iif(NEW.`warranty_days` IS OLD.`warranty_days`, `body` ->> 21, NEW.`warranty_days`), iif(NEW.`detail` IS OLD.`detail`, `body` ->> 22, NEW.`detail` || ''), iif(NEW.`names` IS OLD.`names`, `body` ->> 23, NEW.`names` || ''))
		WHERE `of` = 'settings' AND `id` = OLD.`id` AND json_valid(`body`);
END;
--> statement-breakpoint
CREATE TRIGGER `settings_copy_dropped` AFTER DELETE ON `settings`
BEGIN
	DELETE FROM `row_copies` WHERE `of` = 'settings' AND `id` = OLD.`id`;
END;
--> statement-breakpoint
CREATE TRIGGER `sign_in_events_row_copied` AFTER INSERT ON `sign_in_events`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('sign_in_events', NEW.`id`, json_array(NEW.`at` || '', NEW.`what` || '', NEW.`staff_id` || '', NEW.`by_id` || '', NEW.`how` || '', NEW.`caller` || ''))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `sign_in_events_copy_moved` AFTER UPDATE OF `id`, `at`, `what`, `staff_id`, `by_id`, `how`, `caller` ON `sign_in_events`
BEGIN
	UPDATE `row_copies` SET `id` = NEW.`id`, `body` = json_array(iif(NEW.`at` IS OLD.`at`, `body` ->> 0, NEW.`at` || ''), iif(NEW.`what` IS OLD.`what`, `body` ->> 1, NEW.`what` || ''), iif(NEW.`staff_id` IS OLD.`staff_id`, `body` ->> 2, NEW.`staff_id` || ''), iif(NEW.`by_id` IS OLD.`by_id`, `body` ->> 3, NEW.`by_id` || ''), iif(NEW.`how` IS OLD.`how`, `body` ->> 4, NEW.`how` || ''), iif(NEW.`caller` IS OLD.`caller`, `body` ->> 5, NEW.`caller` || ''))
		WHERE `of` = 'sign_in_events' AND `id` = OLD.`id` AND json_valid(`body`);
END;
--> statement-breakpoint
CREATE TRIGGER `sign_in_events_copy_dropped` AFTER DELETE ON `sign_in_events`
BEGIN
	DELETE FROM `row_copies` WHERE `of` = 'sign_in_events' AND `id` = OLD.`id`;
END;
--> statement-breakpoint
CREATE TRIGGER `standard_costs_row_copied` AFTER INSERT ON `standard_costs`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('standard_costs', json_array(NEW.`currency`, NEW.`standard`, NEW.`month`), json_array(NEW.`observations`, NEW.`jobs`, NEW.`allowed`, NEW.`taken`, NEW.`cost`))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `standard_costs_copy_moved` AFTER UPDATE OF `currency`, `standard`, `month`, `observations`, `jobs`, `allowed`, `taken`, `cost` ON `standard_costs`
BEGIN
	UPDATE `row_copies` SET `id` = json_array(NEW.`currency`, NEW.`standard`, NEW.`month`), `body` = json_array(iif(NEW.`observations` IS OLD.`observations`, `body` ->> 0, NEW.`observations`), iif(NEW.`jobs` IS OLD.`jobs`, `body` ->> 1, NEW.`jobs`), iif(NEW.`allowed` IS OLD.`allowed`, `body` ->> 2, NEW.`allowed`), iif(NEW.`taken` IS OLD.`taken`, `body` ->> 3, NEW.`taken`), iif(NEW.`cost` IS OLD.`cost`, `body` ->> 4, NEW.`cost`))
		WHERE `of` = 'standard_costs' AND `id` = json_array(OLD.`currency`, OLD.`standard`, OLD.`month`) AND json_valid(`body`);
END;
--> statement-breakpoint
CREATE TRIGGER `standard_costs_copy_dropped` AFTER DELETE ON `standard_costs`
BEGIN
	DELETE FROM `row_copies` WHERE `of` = 'standard_costs' AND `id` = json_array(OLD.`currency`, OLD.`standard`, OLD.`month`);
END;
--> statement-breakpoint
CREATE TRIGGER `stock_movements_row_copied` AFTER INSERT ON `stock_movements`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('stock_movements', CAST(NEW.`number` AS TEXT), json_array(NEW.`id` || '', NEW.`kind` || '', NEW.`why` || '', NEW.`change`, NEW.`beyond`, NEW.`stands_at`, NEW.`reason` || '', NEW.`job_id` || '', NEW.`goods_in_id` || '', NEW.`at` || '', NEW.`by` || ''))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `timers_row_copied` AFTER INSERT ON `timers`
BEGIN
	INSERT INTO `row_copies` (`of`, `id`, `body`) VALUES ('timers', NEW.`id`, json_array(NEW.`job_id` || '', NEW.`person` || '', NEW.`started_at` || '', NEW.`item` || '', NEW.`assembly` || '', NEW.`offer` || '', NEW.`labour_class` || ''))
		ON CONFLICT (`of`, `id`) DO UPDATE SET `body` = excluded.`body`;
END;
--> statement-breakpoint
CREATE TRIGGER `timers_copy_moved` AFTER UPDATE OF `id`, `job_id`, `person`, `started_at`, `item`, `assembly`, `offer`, `labour_class` ON `timers`
BEGIN
	UPDATE `row_copies` SET `id` = NEW.`id`, `body` = json_array(iif(NEW.`job_id` IS OLD.`job_id`, `body` ->> 0, NEW.`job_id` || ''), iif(NEW.`person` IS OLD.`person`, `body` ->> 1, NEW.`person` || ''), iif(NEW.`started_at` IS OLD.`started_at`, `body` ->> 2, NEW.`started_at` || ''), iif(NEW.`item` IS OLD.`item`, `body` ->> 3, NEW.`item` || ''), iif(NEW.`assembly` IS OLD.`assembly`, `body` ->> 4, NEW.`assembly` || ''), iif(NEW.`offer` IS OLD.`offer`, `body` ->> 5, NEW.`offer` || ''), iif(NEW.`labour_class` IS OLD.`labour_class`, `body` ->> 6, NEW.`labour_class` || ''))
		WHERE `of` = 'timers' AND `id` = OLD.`id` AND json_valid(`body`);
END;
--> statement-breakpoint
CREATE TRIGGER `timers_copy_dropped` AFTER DELETE ON `timers`
BEGIN
	DELETE FROM `row_copies` WHERE `of` = 'timers' AND `id` = OLD.`id`;
END;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'rate_books', json_array(t.`id`, t.`version`), json_array(t.`name` || '', t.`in_force_from` || '', t.`book` || '', t.`created_at` || '', t.`updated_at` || '') FROM `rate_books` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'models', t.`id`, json_array(t.`version`, t.`created_at` || '', t.`updated_at` || '', t.`maker` || '', t.`model` || '', t.`map` || '', t.`hazards` || '', t.`notes` || '') FROM `models` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'owners', t.`id`, json_array(t.`version`, t.`created_at` || '', t.`updated_at` || '', t.`name` || '', t.`address` || '', t.`phone` || '', t.`email` || '', t.`tax_number` || '', t.`registration` || '', t.`notes` || '', t.`language` || '', t.`locale` || '') FROM `owners` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'units', t.`id`, json_array(t.`version`, t.`created_at` || '', t.`updated_at` || '', t.`owner_id` || '', t.`model_id` || '', t.`maker` || '', t.`model` || '', t.`serial` || '', t.`declared_value`, t.`hazards` || '', t.`notes` || '') FROM `units` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'jobs', t.`id`, json_array(t.`version`, t.`created_at` || '', t.`updated_at` || '', t.`year`, t.`sequence`, t.`owner_id` || '', t.`unit_id` || '', t.`arrived_on` || '', t.`reported` || '', t.`condition` || '', t.`accessories` || '', t.`notes` || '') FROM `jobs` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'estimates', t.`id`, json_array(t.`version`, t.`created_at` || '', t.`updated_at` || '', t.`job_id` || '', t.`revision`, t.`rate_book_id` || '', t.`rate_book_version`, t.`content_hash` || '', t.`issued_at` || '', t.`issued_by` || '') FROM `estimates` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'staff', t.`id`, json_array(t.`version`, t.`created_at` || '', t.`updated_at` || '', t.`name` || '', t.`name_key` || '', t.`role` || '', t.`joined_at` || '', t.`left_at` || '') FROM `staff` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'api_tokens', t.`id`, json_array(t.`token_hash` || '', t.`staff_id` || '', t.`name` || '', t.`scopes` || '', t.`made_at` || '', t.`revoked_at` || '') FROM `api_tokens` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'part_kinds', t.`id`, json_array(t.`version`, t.`created_at` || '', t.`updated_at` || '', t.`type` || '', t.`name` || '', t.`value` || '', quote(t.`rated_volts`), quote(t.`tolerance_percent`), t.`form` || '', t.`audio_grade`, t.`leads`, t.`scarcity` || '', t.`notes` || '', t.`withdrawal` || '') FROM `part_kinds` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'catalogue_entries', CAST(t.`id` AS TEXT), json_array(t.`kind` || '') FROM `catalogue_entries` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'donors', t.`id`, json_array(t.`version`, t.`created_at` || '', t.`updated_at` || '', t.`maker` || '', t.`model` || '', t.`serial` || '', t.`bought_on` || '', t.`currency` || '', t.`cost`, t.`notes` || '', t.`withdrawal` || '') FROM `donors` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'exchange_rates', t.`id`, json_array(t.`version`, t.`created_at` || '', t.`updated_at` || '', t.`currency` || '', t.`into_currency` || '', t.`rate` || '', t.`quoted_on` || '', t.`source` || '', t.`withdrawal` || '') FROM `exchange_rates` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'offers', t.`id`, json_array(t.`version`, t.`created_at` || '', t.`updated_at` || '', t.`kind` || '', t.`source` || '', t.`offered_on` || '', t.`currency` || '', t.`price`, t.`pack_size`, t.`minimum_packs`, t.`available`, t.`lead_days`, t.`state` || '', quote(t.`share_good`), t.`freight`, quote(t.`pull_minutes`), t.`seen_good` || '', t.`withdrawal` || '', t.`donor` || '', quote(t.`duty_percent`), quote(t.`import_tax_percent`), t.`parcel_fee`) FROM `offers` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'orders', t.`id`, json_array(t.`at` || '', t.`by` || '', t.`source` || '', t.`ordered_on` || '', t.`currency` || '', t.`freight`, t.`note` || '') FROM `orders` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'order_lines', t.`id`, json_array(t.`order_id` || '', t.`kind` || '', t.`offer_id` || '', t.`packs`, t.`pack_size`, t.`price`, t.`pieces`, t.`jobs` || '') FROM `order_lines` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'goods_in', t.`id`, json_array(t.`at` || '', t.`by` || '', t.`received_on` || '', t.`kind` || '', t.`source` || '', t.`state` || '', t.`pieces`, t.`currency` || '', t.`paid`, t.`freight`, t.`offer_id` || '', t.`order_line_id` || '', t.`note` || '') FROM `goods_in` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'goods_in_tests', t.`id`, json_array(t.`goods_in_id` || '', t.`at` || '', t.`by` || '', t.`good`, t.`bad`) FROM `goods_in_tests` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'invitations', t.`id`, json_array(t.`secret_hash` || '', t.`staff_id` || '', t.`made_by` || '', t.`made_at` || '', t.`expires_at` || '', t.`used_at` || '') FROM `invitations` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'logos', t.`id`, json_array(t.`added_at` || '', t.`kind` || '', t.`width`, t.`height`) FROM `logos` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'mappings', t.`id`, json_array(t.`version`, t.`created_at` || '', t.`updated_at` || '', t.`what` || '', t.`headings` || '', t.`fields` || '', t.`types` || '', t.`mark` || '') FROM `mappings` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'observations', json_array(t.`job_id`, t.`rate_book_id`, t.`rate_book_version`, t.`line`, t.`standard`), json_array(t.`closed_on` || '', t.`model` || '', t.`grade` || '', quote(t.`minutes`), quote(t.`low`), quote(t.`likely`), quote(t.`high`), quote(t.`own_low`), quote(t.`own_likely`), quote(t.`own_high`), t.`rate_per_hour`) FROM `observations` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'observed', json_array(t.`job_id`, t.`rate_book_id`, t.`rate_book_version`), json_array() FROM `observed` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'open_needs', t.`job_id`, json_array(t.`answer_id` || '', t.`needs` || '') FROM `open_needs` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'order_endings', t.`id`, json_array(t.`at` || '', t.`by` || '', t.`reason` || '') FROM `order_endings` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'outcomes', t.`job_id`, json_array(t.`close_out_id` || '', t.`closed_on` || '', t.`month` || '', t.`model` || '', t.`currency` || '', t.`quoted_total`, t.`agreed_total`, t.`billed_total`, t.`revenue`, t.`cost`, t.`planned_margin`, t.`p50`, t.`p80`, t.`actual`, quote(t.`agreed_minutes`), quote(t.`allowed_minutes`), quote(t.`actual_minutes`), t.`declined`) FROM `outcomes` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'passkeys', t.`id`, json_array(t.`staff_id` || '', t.`name` || '', t.`site` || '', t.`public_key` || '', t.`counter`, t.`transports` || '', t.`made_at` || '', t.`used_at` || '') FROM `passkeys` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'passphrases', t.`staff_id`, json_array(t.`n`, t.`r`, t.`p`, t.`salt` || '', t.`hash` || '', t.`set_at` || '') FROM `passphrases` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'recovery_codes', t.`code_hash`, json_array(t.`staff_id` || '', t.`made_at` || '', t.`used_at` || '') FROM `recovery_codes` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'search_entries', CAST(t.`id` AS TEXT), json_array(t.`job_id` || '') FROM `search_entries` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'send_attempts', t.`id`, json_array(t.`at` || '', t.`job_id` || '', t.`status`, t.`failure` || '') FROM `send_attempts` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'send_hooks', t.`id`, json_array(t.`version`, t.`created_at` || '', t.`updated_at` || '', t.`url` || '', t.`secret` || '') FROM `send_hooks` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'settings', t.`id`, json_array(t.`version`, t.`created_at` || '', t.`updated_at` || '', t.`name` || '', t.`address` || '', t.`phone` || '', t.`email` || '', t.`tax_number` || '', t.`registration` || '', t.`currency` || '', t.`locale` || '', t.`time_zone` || '', t.`paper` || '', t.`terms` || '', t.`rate_book_id` || '', t.`bench_queue_days`, t.`profile_terms` || '', t.`language` || '', t.`footer` || '', t.`logo` || '', t.`link_days`, t.`warranty_days`, t.`detail` || '', t.`names` || '') FROM `settings` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'sign_in_events', t.`id`, json_array(t.`at` || '', t.`what` || '', t.`staff_id` || '', t.`by_id` || '', t.`how` || '', t.`caller` || '') FROM `sign_in_events` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'standard_costs', json_array(t.`currency`, t.`standard`, t.`month`), json_array(t.`observations`, t.`jobs`, t.`allowed`, t.`taken`, t.`cost`) FROM `standard_costs` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'stock_movements', CAST(t.`number` AS TEXT), json_array(t.`id` || '', t.`kind` || '', t.`why` || '', t.`change`, t.`beyond`, t.`stands_at`, t.`reason` || '', t.`job_id` || '', t.`goods_in_id` || '', t.`at` || '', t.`by` || '') FROM `stock_movements` t;
--> statement-breakpoint
INSERT INTO `row_copies` (`of`, `id`, `body`) SELECT 'timers', t.`id`, json_array(t.`job_id` || '', t.`person` || '', t.`started_at` || '', t.`item` || '', t.`assembly` || '', t.`offer` || '', t.`labour_class` || '') FROM `timers` t;
