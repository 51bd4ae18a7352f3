ALTER TABLE `offers` ADD `seen_good` text;
