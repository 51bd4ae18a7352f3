-- What other currencies cost in the shop's, by day; and what an offer from abroad carries besides its price.
CREATE TABLE `exchange_rates` (
	`id` text PRIMARY KEY NOT NULL,
	`version` integer NOT NULL,
	`created_at` text NOT NULL,
	`updated_at` text NOT NULL,
	`currency` text NOT NULL,
	`into_currency` text NOT NULL,
	`rate` text NOT NULL,
	`quoted_on` text NOT NULL,
	`source` text NOT NULL,
	`withdrawal` text
) STRICT;
--> statement-breakpoint
CREATE INDEX `exchange_rates_currency` ON `exchange_rates` (`into_currency`,`currency`,`quoted_on`);--> statement-breakpoint
ALTER TABLE `offers` ADD `duty_percent` real;--> statement-breakpoint
ALTER TABLE `offers` ADD `import_tax_percent` real;--> statement-breakpoint
ALTER TABLE `offers` ADD `parcel_fee` integer;
