/* SPDX-License-Identifier: MIT */
int a; 
	int b;
int c;