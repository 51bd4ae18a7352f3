-- What is logged beside the list: work and parts in own words, where a part came from, why it cost what it did.
ALTER TABLE `work_log` ADD `own` text;--> statement-breakpoint
ALTER TABLE `work_log` ADD `own_hazards` text;--> statement-breakpoint
ALTER TABLE `work_log` ADD `own_part` text;--> statement-breakpoint
ALTER TABLE `work_log` ADD `part_source` text;--> statement-breakpoint
ALTER TABLE `work_log` ADD `part_reason` text;