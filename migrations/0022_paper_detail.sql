-- How much an owner's estimate shows, unless it is chosen for that one.
ALTER TABLE `settings` ADD `detail` text DEFAULT 'letter' NOT NULL;
