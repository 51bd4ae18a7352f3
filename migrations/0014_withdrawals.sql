-- An offer, or a part of the catalogue, that was a mistake is withdrawn: it stays on record, with who, when and why, and is offered no more.
ALTER TABLE `offers` ADD `withdrawal` text;--> statement-breakpoint
ALTER TABLE `part_kinds` ADD `withdrawal` text;--> statement-breakpoint
-- An offer of a part that is none any more would spoil every estimate.
CREATE TRIGGER `offers_of_standing_kinds` BEFORE INSERT ON `offers`
WHEN (SELECT `withdrawal` FROM `part_kinds` WHERE `id` = new.`kind`) IS NOT NULL
BEGIN SELECT RAISE(ABORT, 'the part is withdrawn'); END;--> statement-breakpoint
-- How long an owner's link opens and how long the shop stands by its work, where nothing else is said.
ALTER TABLE `settings` ADD `link_days` integer DEFAULT 90 NOT NULL;--> statement-breakpoint
ALTER TABLE `settings` ADD `warranty_days` integer DEFAULT 90 NOT NULL;
