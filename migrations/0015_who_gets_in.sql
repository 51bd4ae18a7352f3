-- Whoever left before this was written has no way in any more, as whoever leaves from now on.
UPDATE `staff` SET `joined_at` = NULL WHERE `left_at` IS NOT NULL;
--> statement-breakpoint
DELETE FROM `passkeys` WHERE `staff_id` IN (SELECT `id` FROM `staff` WHERE `left_at` IS NOT NULL);
--> statement-breakpoint
DELETE FROM `passphrases` WHERE `staff_id` IN (SELECT `id` FROM `staff` WHERE `left_at` IS NOT NULL);
--> statement-breakpoint
DELETE FROM `recovery_codes` WHERE `staff_id` IN (SELECT `id` FROM `staff` WHERE `left_at` IS NOT NULL);
--> statement-breakpoint
UPDATE `invitations` SET `expires_at` = `made_at` WHERE `used_at` IS NULL AND `staff_id` IN (SELECT `id` FROM `staff` WHERE `left_at` IS NOT NULL);
--> statement-breakpoint
UPDATE `sessions` SET `ended_at` = `seen_at` WHERE `ended_at` IS NULL AND `staff_id` IN (SELECT `id` FROM `staff` WHERE `left_at` IS NOT NULL);
--> statement-breakpoint
UPDATE `api_tokens` SET `revoked_at` = (SELECT `left_at` FROM `staff` WHERE `id` = `staff_id`)
	WHERE `revoked_at` IS NULL AND `staff_id` IN (SELECT `id` FROM `staff` WHERE `left_at` IS NOT NULL);
--> statement-breakpoint
CREATE TRIGGER `staff_keep_a_manager` BEFORE UPDATE ON `staff`
	WHEN OLD.`role` = 'manager' AND OLD.`joined_at` IS NOT NULL AND OLD.`left_at` IS NULL
		AND NOT (NEW.`role` = 'manager' AND NEW.`joined_at` IS NOT NULL AND NEW.`left_at` IS NULL)
		AND NOT EXISTS (SELECT 1 FROM `staff` WHERE `id` <> OLD.`id` AND `role` = 'manager' AND `joined_at` IS NOT NULL AND `left_at` IS NULL)
BEGIN SELECT RAISE(ABORT, 'the last manager who can sign in stays'); END;
--> statement-breakpoint
CREATE TRIGGER `invitations_are_used_once` BEFORE UPDATE OF `used_at` ON `invitations`
	WHEN OLD.`used_at` IS NOT NULL OR OLD.`expires_at` <= NEW.`used_at`
BEGIN SELECT RAISE(ABORT, 'an invitation is used once, while it is open'); END;
