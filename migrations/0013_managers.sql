-- Whoever runs the shop is its manager; an owner is whoever a unit belongs to.
UPDATE `staff` SET `role` = 'manager', `version` = `version` + 1 WHERE `role` = 'owner';
